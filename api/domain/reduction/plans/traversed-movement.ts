import type { Instrument, MeasuringPoint } from '../../site/tables.ts'
import type { Measure } from '../../site/vocabulary.ts'
import type { DerivedBundle, Term } from '../rules/derived-bundle.ts'
import { grooveShares } from './groove-shares.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { decimalsOf, type PlanSite, sensorsOf } from './plan-site.ts'
import { slotsOf } from './slots.ts'

/**
 * Movement to the east and north of that end of a traversed casing that is not taken to be still, against the zero survey,
 * from both faces of both axes at every interval. None where a face is missing somewhere, a zero survey is not stated, no
 * end is still or the bearing of A is not known.
 */
export function traversedMovement(
  instrument: Instrument,
  site: PlanSite,
  points: readonly MeasuringPoint[],
): readonly DerivedBundle[] {
  const { id, axisBearingDegrees, fixedEnd } = instrument
  if (axisBearingDegrees === null || (fixedEnd !== 'toe' && fixedEnd !== 'head')) return []
  const measures: readonly Measure[] = ['face-a0', 'face-a180', 'face-b0', 'face-b180']
  const sensors = measures.map((measure) => sensorsOf(points, site, measure))
  const faces = sensors.map((some) => slotsOf(points, some))
  const count = faces[0]?.length ?? 0
  if (count === 0 || faces.some((some) => some.some(({ series }) => series.length === 0))) return []
  const byId = new Map(points.map((point) => [point.id, point]))
  const intervals = (faces[0] ?? []).flatMap(({ point }) => byId.get(point) ?? [])
  const zerosA = intervals.flatMap(({ zeroDeviationAMm }) => zeroDeviationAMm ?? [])
  const zerosB = intervals.flatMap(({ zeroDeviationBMm }) => zeroDeviationBMm ?? [])
  if (zerosA.length < count || zerosB.length < count) return []

  const grooves = grooveShares(instrument, axisBearingDegrees, site)
  // A deviation moves the top of an interval against its base: from a still head downwards they are taken away.
  const sign = fixedEnd === 'toe' ? 1 : -1
  const end = fixedEnd === 'toe' ? 'top' : 'toe'
  const made = (['east', 'north'] as const).map((way): MadeSeries => {
    const shares = intervals.map(({ depthMetres }) => {
      const { aEast, aNorth, bEast, bNorth } = grooves.at(depthMetres)
      return way === 'east' ? { a: aEast, b: bEast } : { a: aNorth, b: bNorth }
    })
    /** (face 0 − face 180) / 2 along one axis, as much of it as points this way. */
    const along = (face0: number, axis: 'a' | 'b'): readonly Term[] =>
      shares.flatMap(({ [axis]: share }, interval) =>
        share === 0
          ? []
          : [
              { slot: face0 * count + interval, weight: (sign * share) / 2 },
              { slot: (face0 + 1) * count + interval, weight: (-sign * share) / 2 },
            ],
      )
    return {
      output: {
        id: `${id}/displacement-${way}`,
        point: id,
        measure: `displacement-${way}`,
        unit: 'mm',
        decimals: decimalsOf(sensors.flat()),
        positiveMeans: `${end} of the casing moves ${way}, against its still ${fixedEnd}`,
      },
      combination: {
        constant: shares.reduce(
          (sum, { a, b }, interval) =>
            sum - sign * (a * (zerosA[interval] ?? 0) + b * (zerosB[interval] ?? 0)),
          0,
        ),
        terms: [...along(0, 'a'), ...along(2, 'b')],
        says: `Movement ${way} of the ${end} of the casing against the zero survey, ${grooves.says}`,
        formula:
          way === 'east'
            ? 'E = Σ ((A0 − A180) / 2 − zero) · sin α + Σ ((B0 − B180) / 2 − zero) · sin β'
            : 'N = Σ ((A0 − A180) / 2 − zero) · cos α + Σ ((B0 − B180) / 2 − zero) · cos β',
      },
    }
  })
  return combinationBundles(instrument, faces.flat(), made, sensors.flat())
}
