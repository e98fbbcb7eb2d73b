import type { PlacedInstrument, PlacedPoint, Series, SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { alignmentsOfWorks } from '#domain/geometry/alignment-of-works.ts'
import { type Hole, positionAtDepth } from '#domain/geometry/hole.ts'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { cumulativeDeflection } from '../../derived/cumulative-deflection.ts'
import { wellMarks } from '../../derived/well-marks.ts'
import { readableDecimals } from '../../ui/format-value.ts'
import { standingOf } from '../../ui/state-scale.ts'
import { publishedDepth } from '../depth-profile/published-profile.ts'
import type { SectionHole, SectionPoint, SectionProps, SectionShape } from './section-props.ts'

export type SectionSetting = Pick<
  SectionProps,
  | 'line'
  | 'offsetLimitMetres'
  | 'trueScale'
  | 'joinLayersWithinMetres'
  | 'movementExaggeration'
  | 'selectedPoint'
  | 'remarks'
  | 'waiting'
  | 'clockEpochMs'
>

/** Kinds that stand in the ground or on it and belong in a section; the rest measure weather and loggers. */
const drawnKinds = new Set([
  'piezometer',
  'standpipe',
  'extensometer',
  'settlement-point',
  'tiltmeter',
  'crack-meter',
  'strut-load',
  'tilt-beam',
  'settlement-cell',
])

/** Kinds whose bend is drawn in the plane of the section. */
const bentKinds = new Set(['in-place-inclinometer', 'traversed-inclinometer'])

/** Props of the section from the site and the states at the clock. */
export function sectionFromSite(
  document: SiteDocument,
  grid: SiteGrid,
  states: ReadonlyMap<number, SeriesState>,
  setting: SectionSetting,
): SectionProps {
  const bent = shapesOf(document, states, setting.line)
  return {
    ...setting,
    remarks: [...setting.remarks, ...bent.refused(setting.offsetLimitMetres)],
    grid,
    datum: document.facts.verticalDatum,
    timeZone: document.facts.timeZone,
    groundLevelMetres: document.facts.groundLevelMetres,
    waterUnitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
    levelCount: document.facts.levelNames.length,
    works: document.works,
    alignments: alignmentsOfWorks(document.works, document.alignmentElements, grid),
    holes: holesOf(document),
    points: pointsOf(document, states, setting.clockEpochMs),
    wells: wellMarks(document, setting.clockEpochMs),
    shapes: bent.shapes,
  }
}

function holesOf(document: SiteDocument): SectionHole[] {
  return document.locations
    .filter((location) => location.kind === 'hole')
    .map((location) => ({
      ...location,
      strata: document.strata
        .filter((layer) => layer.location === location.id)
        .map((layer) => ({ ...layer, name: layer.stratum }))
        .toSorted((left, right) => right.topLevelMetres - left.topLevelMetres),
    }))
}

function pointsOf(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState>,
  clockEpochMs: number,
): SectionPoint[] {
  const seriesByNumber = new Map(document.series.map((series) => [series.series, series]))
  const ids = new Set(document.points.map((point) => point.id))
  return (
    document.points
      .filter((point) => drawnKinds.has(point.kind))
      // The gauges of a strut stand behind its force; the strut itself is shown.
      .filter(
        (point) => point.kind !== 'strut-load' || point.id === point.instrument || !ids.has(point.instrument),
      )
      .filter((point) => point.retiredAtEpochMs === null || point.retiredAtEpochMs > clockEpochMs)
      .map((point) => {
        const series = point.primarySeries === null ? undefined : seriesByNumber.get(point.primarySeries)
        const state = series && states.get(series.series)
        return {
          point: point.id,
          kind: point.kind,
          measure: series?.measure ?? null,
          eastingMetres: point.eastingMetres,
          northingMetres: point.northingMetres,
          levelMetres: point.levelMetres,
          stratum: point.stratum,
          standing: states.size === 0 ? 'unknown' : standingOf(state),
          value: state?.value ?? null,
          unit: series?.unit ?? '',
          decimals: series ? readableDecimals(series.decimals, series.standardUncertainty) : 0,
          ageMs: state?.atEpochMs == null ? null : clockEpochMs - state.atEpochMs,
        }
      })
  )
}

/** Casings' A-axis deflections turned into the plane of the section's nearest piece. */
function shapesOf(
  document: SiteDocument,
  states: ReadonlyMap<number, SeriesState>,
  line: readonly SitePoint[],
): {
  readonly shapes: readonly SectionShape[]
  readonly refused: (withinMetres: number) => readonly string[]
} {
  const points = new Map(document.points.map((point) => [point.id, point]))
  const refusals: { readonly sentence: string; readonly hole: Hole }[] = []
  const seriesOf = new Map(document.series.map((series) => [series.id, series]))
  const shapes = document.instruments.flatMap((instrument) => {
    const bearing = instrument.axisBearingDegrees
    const hole = document.locations.find((location) => location.id === instrument.location)
    if (!bentKinds.has(instrument.kind) || !hole) return []
    const refuse = (why: string) => {
      refusals.push({ sentence: `${instrument.id} is drawn without its bend: ${why}.`, hole })
      return []
    }
    if (bearing === null) return refuse('the bearing of its axis A is not recorded')
    // From a surveyed head the shape does not begin at nought; it is drawn in the profile only.
    if (instrument.fixedEnd === 'surveyed-head')
      return refuse('its movements are told from a surveyed head; see its depth profile')
    const along = alongShares(line, [hole.eastingMetres, hole.northingMetres], bearing)
    if (!along) return []
    const acrossShare = instrument.positiveB === 'counter-clockwise' ? -along.b : along.b
    const fixedEnd = instrument.fixedEnd === 'head' ? 'head' : 'toe'
    const members = instrument.points.flatMap((id) => points.get(id) ?? [])
    // Published deflections run along grooves that turn; unturned again they would need every interval of both axes.
    const turns = members.some(({ grooveTurnDegrees }) => (grooveTurnDegrees ?? 0) !== 0)
    if (turns && instrument.kind === 'traversed-inclinometer')
      return refuse('its grooves turn with depth; see its depth profile')
    const sense = instrument.positiveB === 'counter-clockwise' ? -1 : 1
    const axis = (name: 'a' | 'b') =>
      instrument.kind === 'traversed-inclinometer'
        ? traversedPlaces(instrument, members, seriesOf, states, name)
        : cumulativeDeflection(segmentsOf(members, seriesOf, states, name, sense), fixedEnd).places
    const [a, b] = [axis('a'), axis('b')]
    const places = a.flatMap((place) => {
      const across = b.find((one) => Math.abs(one.depthMetres - place.depthMetres) < 0.01)
      // Without the B axis the movement in the section's plane is only known where A lies in it.
      if (!across && Math.abs(along.b) > 0.05) return []
      return [
        {
          depthMetres: place.depthMetres,
          alongMillimetres: place.millimetres * along.a + (across?.millimetres ?? 0) * acrossShare,
        },
      ]
    })
    const late = members.some((point) => {
      const series = seriesOf.get(`${point.id}/inclination-a`) ?? seriesOf.get(`${point.id}/deflection`)
      return series ? (states.get(series.series)?.late ?? true) : false
    })
    if (places.length >= 2) return [{ instrument: instrument.id, hole, late, places }]
    if (states.size === 0) return []
    return refuse(
      a.length >= 2
        ? 'without its axis B the movement in the plane of the section is not known'
        : 'no movement is known at two depths or more',
    )
  })
  const near = ({ hole }: { readonly hole: Hole }, withinMetres: number) =>
    projectOntoSection(line, [positionAtDepth(hole, 0)], withinMetres)[0] !== null
  return {
    shapes,
    refused: (withinMetres) =>
      refusals.filter((one) => near(one, withinMetres)).map(({ sentence }) => sentence),
  }
}

/** Deflections of a traversed casing as they were published, each at the end of its interval that it is told for. */
function traversedPlaces(
  instrument: PlacedInstrument,
  members: readonly PlacedPoint[],
  seriesOf: ReadonlyMap<string, Series>,
  states: ReadonlyMap<number, SeriesState>,
  axis: 'a' | 'b',
) {
  return members
    .flatMap((point) => {
      // What is made of the whole casing (a greatest deflection) stands at no depth.
      if (point.id === instrument.id) return []
      const series = seriesOf.get(`${point.id}/${axis === 'a' ? 'deflection' : 'deflection-b'}`)
      const value = series ? (states.get(series.series)?.value ?? null) : null
      return value === null ? [] : [{ depthMetres: publishedDepth(instrument, point), millimetres: value }]
    })
    .toSorted((one, other) => one.depthMetres - other.depthMetres)
}

/** Movements of segments along one axis as it lies at the top; where grooves turn below it, both axes of each are needed. */
function segmentsOf(
  members: readonly PlacedPoint[],
  seriesOf: ReadonlyMap<string, Series>,
  states: ReadonlyMap<number, SeriesState>,
  axis: 'a' | 'b',
  positiveBSense: 1 | -1,
) {
  const incrementOf = (point: PlacedPoint, name: 'a' | 'b') => {
    const series = seriesOf.get(`${point.id}/inclination-${name}`)
    return series && { value: states.get(series.series)?.value ?? null }
  }
  return members.flatMap((point) => {
    const own = incrementOf(point, axis)
    if (!own || point.gaugeLengthMetres === null) return []
    return [
      {
        depthMetres: point.depthMetres,
        gaugeLengthMetres: point.gaugeLengthMetres,
        incrementMillimetres: unturned(
          axis,
          incrementOf(point, 'a')?.value ?? null,
          incrementOf(point, 'b')?.value ?? null,
          positiveBSense * (point.grooveTurnDegrees ?? 0),
        ),
      },
    ]
  })
}

/** A movement read along axes turned by an angle, along the axis unturned; null where a share that counts is not known. */
function unturned(axis: 'a' | 'b', a: number | null, b: number | null, turnDegrees: number): number | null {
  if (turnDegrees === 0) return axis === 'a' ? a : b
  if (a === null || b === null) return null
  const turn = (turnDegrees * Math.PI) / 180
  return axis === 'a' ? a * Math.cos(turn) - b * Math.sin(turn) : a * Math.sin(turn) + b * Math.cos(turn)
}

/** How much of a movement along A and along B (A turned 90° clockwise) shows along the line's nearest piece. */
function alongShares(
  line: readonly SitePoint[],
  at: SitePoint,
  axisBearingDegrees: number,
): { a: number; b: number } | null {
  let nearest: { away: number; bearing: number } | null = null
  for (let place = 0; place + 1 < line.length; place++) {
    const from = line[place] as SitePoint
    const to = line[place + 1] as SitePoint
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    if (length === 0) continue
    const along = ((at[0] - from[0]) * (to[0] - from[0]) + (at[1] - from[1]) * (to[1] - from[1])) / length
    const held = Math.min(Math.max(along, 0), length) / length
    const away = Math.hypot(
      at[0] - from[0] - held * (to[0] - from[0]),
      at[1] - from[1] - held * (to[1] - from[1]),
    )
    if (!nearest || away < nearest.away)
      nearest = { away, bearing: Math.atan2(to[0] - from[0], to[1] - from[1]) }
  }
  if (!nearest) return null
  const turn = (axisBearingDegrees * Math.PI) / 180 - nearest.bearing
  return { a: Math.cos(turn), b: Math.cos(turn + Math.PI / 2) }
}
