import type { PlacedInstrument, PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { FacePair } from '#domain/reduction/face-checksum.ts'
import type { TraversedCasing } from '#domain/reduction/review-traverse.ts'
import type { Columns } from '../engine/columns.ts'

export type TraverseAxis = 'a' | 'b'

/** The faces of a casing at its intervals, from the top down; null where there is no such sensor. */
export interface CasingFaces {
  readonly casing: TraversedCasing
  /** Of the same intervals: numbers of the series of both faces. */
  readonly faces: readonly { readonly face0: number | null; readonly face180: number | null }[]
  readonly cross: CasingFaces['faces']
}

/** What one survey read of a casing, in order of its intervals. */
export interface TraverseSurvey {
  readonly atEpochMs: number
  readonly faces: readonly FacePair[]
  readonly cross: readonly FacePair[]
}

/** A traversed casing along one axis, as it stands at an instant; null for another kind, or without faces along it. */
export function casingFaces(
  document: Pick<SiteDocument, 'points' | 'series'>,
  instrument: PlacedInstrument,
  axis: TraverseAxis,
  atEpochMs: number,
): CasingFaces | null {
  if (instrument.kind !== 'traversed-inclinometer') return null
  const standing = document.points
    .filter((point) => point.instrument === instrument.id)
    .filter(({ retiredAtEpochMs }) => retiredAtEpochMs === null || retiredAtEpochMs > atEpochMs)
    .toSorted((one, other) => one.depthMetres - other.depthMetres)
  const numberOf = new Map(document.series.map((one) => [one.id, one.series]))
  const along = (which: TraverseAxis) => (point: PlacedPoint) => ({
    face0: numberOf.get(`${point.id}/face-${which}0`) ?? null,
    face180: numberOf.get(`${point.id}/face-${which}180`) ?? null,
  })
  const read = standing.filter((point) => along(axis)(point).face0 !== null)
  if (read.length === 0) return null
  const { fixedEnd, stillBelowMetres } = instrument
  return {
    casing: {
      intervals: read.map((point) => ({
        point: point.id,
        depthMetres: point.depthMetres,
        lengthMetres: point.gaugeLengthMetres,
        zeroDeviationMm: point[axis === 'a' ? 'zeroDeviationAMm' : 'zeroDeviationBMm'] ?? null,
      })),
      fixedEnd: fixedEnd === 'toe' || fixedEnd === 'head' ? fixedEnd : null,
      stillBelowMetres: stillBelowMetres ?? null,
    },
    faces: read.map(along(axis)),
    cross: read.map(along(axis === 'a' ? 'b' : 'a')),
  }
}

/** Numbers of every face's series. */
export const seriesOfFaces = ({ faces, cross }: CasingFaces): readonly Series['series'][] =>
  [...faces, ...cross]
    .flatMap(({ face0, face180 }) => [face0, face180])
    .filter((series): series is number => series !== null)

/** Surveys from an answer to `traverseSurveys`, newest first; those that read nothing along the axis are left away. */
export function surveysOf({ faces, cross }: CasingFaces, columns: Columns): readonly TraverseSurvey[] {
  const [series, at, value] = (['series', 'at_ms', 'value'] as const).map((name) => columns.number(name))
  const readings = new Map<number, Map<number, number>>()
  for (let row = 0; row < columns.rows; row++) {
    const instant = at?.[row] as number
    const survey = readings.get(instant) ?? new Map<number, number>()
    readings.set(instant, survey)
    if (Number.isFinite(value?.[row])) survey.set(series?.[row] as number, value?.[row] as number)
  }
  return [...readings].flatMap(([atEpochMs, survey]) => {
    const of = (pairs: CasingFaces['faces']): readonly FacePair[] =>
      pairs.map(({ face0, face180 }) => ({
        face0: face0 === null ? null : (survey.get(face0) ?? null),
        face180: face180 === null ? null : (survey.get(face180) ?? null),
      }))
    const own = of(faces)
    return own.every(({ face0, face180 }) => face0 === null && face180 === null)
      ? []
      : [{ atEpochMs, faces: own, cross: of(cross) }]
  })
}
