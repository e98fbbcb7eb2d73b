import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Instrument, MeasuringPoint, Sensor } from '../../site/tables.ts'
import type { DerivedBundle, DerivedSlot, Term } from '../rules/derived-bundle.ts'
import { grooveShares } from './groove-shares.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { decimalsOf, instrumentIssue, type PlanSite, sensorsOf, unitFaults } from './plan-site.ts'
import { slotsOf } from './slots.ts'
import { surveyedSlot } from './surveyed-slot.ts'

/**
 * Movement of the end of a string that is not still to the east and north, from A and B of all its segments (none
 * where a segment has no B, or the bearing of A is not stated); and with a surveyed head, from the movement surveyed
 * there, deflection along A at the base of every segment.
 */
export function horizontalBundle(
  instrument: Instrument,
  site: PlanSite,
  points: readonly MeasuringPoint[],
  alongA: readonly DerivedSlot[],
  sensorsA: readonly Sensor[],
): Outcome<readonly DerivedBundle[]> {
  const surveyed = instrument.fixedEnd === 'surveyed-head'
  const { axisBearingDegrees } = instrument
  if (axisBearingDegrees === null)
    return surveyed
      ? reject(
          instrumentIssue(
            instrument,
            'axisBearingDegrees',
            'axis-bearing-expected',
            '0 to 360',
            `The head of ${instrument.id} is surveyed to the east and north, but the bearing of its A axis is not stated. Give axisBearingDegrees.`,
          ),
        )
      : accept([])
  const sensorsB = sensorsOf(points, site, 'inclination-b')
  const alongB = slotsOf(points, sensorsB)
  const bothAxes = alongB.every(({ series }) => series.length > 0)
  if (!bothAxes && !surveyed) return accept([])
  const faults = unitFaults(instrument, sensorsB, 'mm')
  if (faults.length > 0) return reject(...faults)

  const heads: DerivedSlot[] = []
  if (surveyed)
    for (const measure of ['displacement-east', 'displacement-north'] as const) {
      const slot = surveyedSlot(instrument, site, measure)
      if (!slot.ok) return slot
      heads.push(slot.value)
    }
  const count = alongA.length
  const slots = [...alongA, ...(bothAxes ? alongB : []), ...heads]
  const [headEast, headNorth] = [slots.length - 2, slots.length - 1]
  const grooves = grooveShares(instrument, axisBearingDegrees, site)
  const top = grooves.at(0)
  // An increment moves a segment's top against its base: from a still toe upwards they add, from the head they are taken away.
  const sign = instrument.fixedEnd === 'toe' ? 1 : -1
  const end = instrument.fixedEnd === 'toe' ? 'top' : 'toe'
  const from = instrument.fixedEnd === 'toe' ? 'still toe' : surveyed ? 'surveyed head' : 'still head'
  const made: MadeSeries[] = []
  if (surveyed)
    for (const [last, { point }] of alongA.entries())
      made.push({
        output: {
          id: `${point}/deflection`,
          point,
          measure: 'deflection',
          unit: 'mm',
          decimals: decimalsOf(sensorsA),
          positiveMeans: null,
        },
        combination: {
          constant: 0,
          terms: weighted([
            { slot: headEast, weight: top.aEast },
            { slot: headNorth, weight: top.aNorth },
            ...alongA.slice(0, last + 1).map((_, slot) => ({ slot, weight: -1 })),
          ]),
          says: `Deflection along A at the base of ${point} from the surveyed head`,
          formula: 'd = E · sin α + N · cos α − Σ L · (sin θ − sin θ₀)',
        },
      })
  if (bothAxes)
    for (const way of ['east', 'north'] as const) {
      const shares = alongA.map(({ depthMetres }) => {
        const { aEast, aNorth, bEast, bNorth } = grooves.at(depthMetres)
        return way === 'east' ? { a: aEast, b: bEast } : { a: aNorth, b: bNorth }
      })
      made.push({
        output: {
          id: `${instrument.id}/displacement-${way}`,
          point: instrument.id,
          measure: `displacement-${way}`,
          unit: 'mm',
          decimals: decimalsOf([...sensorsA, ...sensorsB]),
          positiveMeans: `${end} of the string moves ${way}, against its ${from}`,
        },
        combination: {
          constant: 0,
          terms: weighted([
            ...(surveyed ? [{ slot: way === 'east' ? headEast : headNorth, weight: 1 }] : []),
            ...shares.map(({ a }, slot) => ({ slot, weight: sign * a })),
            ...shares.map(({ b }, slot) => ({ slot: count + slot, weight: sign * b })),
          ]),
          says: `Movement ${way} of the ${end} of the string, ${grooves.says}`,
          formula: way === 'east' ? 'E = Σ (a · sin α + b · sin β)' : 'N = Σ (a · cos α + b · cos β)',
        },
      })
    }
  return accept(combinationBundles(instrument, slots, made, [...sensorsA, ...(bothAxes ? sensorsB : [])]))
}

/** An axis that points across asks for no member. */
const weighted = (terms: readonly Term[]): readonly Term[] => terms.filter(({ weight }) => weight !== 0)
