import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, siteTables } from '../../site/tables.ts'
import { convert, findUnit } from '../../units.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import { joinFaults } from './joined-segments.ts'
import { combinationBundles, type MadeSeries } from './made-series.ts'
import { instrumentIssue, type PlanSite, pointsOf, sensorsOf, unitFaults } from './plan-site.ts'
import { slotsOf } from './slots.ts'

/**
 * Differential settlement along a chain of tilt beams, mm, downwards: what each joint has settled against the still
 * end (`head`: the first joint, `toe`: the last). A tilt is positive where the far end of its beam goes up; its sine,
 * tangent and angle differ by less than 0.02 % up to 1 degree and are taken as one. `depthMetres` is the distance of a
 * beam's middle along the chain, `gaugeLengthMetres` its length.
 */
export function planTiltBeams(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const points = pointsOf(instrument, site)
  const sensors = sensorsOf(points, site, 'tilt')
  const unit = sensors[0]?.unit ?? ''
  if (sensors.length === 0 || instrument.fixedEnd === null || instrument.fixedEnd === 'none')
    return accept([])
  const fromHead = instrument.fixedEnd === 'head'
  if (!fromHead && instrument.fixedEnd !== 'toe')
    return reject(
      instrumentIssue(
        instrument,
        'fixedEnd',
        'fixed-end-expected',
        'head or toe',
        `${instrument.id} is a chain of beams: one of its ends is assumed still. Write head for the first joint or toe for the last.`,
      ),
    )
  const slots = slotsOf(points, sensors)
  const millimetresPerMetre = perMetre(unit)
  const lengths = new Map(points.map((point) => [point.id, point.gaugeLengthMetres]))
  const faults = [
    ...unitFaults(instrument, sensors, unit),
    // Beams need their lengths in any case, which is told below.
    ...joinFaults(instrument, points, slots).filter(({ code }) => code !== 'segment-without-length'),
    ...slots
      .filter(({ point, series }) => series.length === 0 || !((lengths.get(point) ?? 0) > 0))
      .map(({ point, series }) => ({
        code: series.length === 0 ? 'segment-without-sensor' : 'beam-without-length',
        file: siteTables.points.file,
        column: series.length === 0 ? 'id' : 'gaugeLengthMetres',
        value: point,
        message: `Beam ${point} of ${instrument.id} has no ${series.length === 0 ? 'tilt sensor' : 'length'}, so nothing can be added up across it. Add it, or take the point out.`,
      })),
  ]
  if (millimetresPerMetre === null)
    faults.push({
      code: 'members-of-different-units',
      file: siteTables.sensors.file,
      column: 'unit',
      value: unit,
      message: `${instrument.id} measures tilt in ${unit}, which is neither an angle nor a slope. Write mm/m, deg or ''.`,
    })
  if (faults.length > 0 || millimetresPerMetre === null) return reject(...faults)
  const outward = fromHead ? [...slots.keys()] : [...slots.keys()].toReversed()
  const made = outward.map((last, index): MadeSeries => {
    const { point } = slots[last] ?? { point: '' }
    const end = fromHead ? 'far' : 'near'
    return {
      output: {
        id: `${point}/differential-settlement`,
        point,
        measure: 'differential-settlement',
        unit: 'mm',
        decimals: 3,
        positiveMeans: `the ${end} end of ${point} settles, against the ${fromHead ? 'first' : 'last'} joint of the chain`,
      },
      combination: {
        constant: 0,
        terms: outward.slice(0, index + 1).map((slot) => ({
          slot,
          weight: (fromHead ? -1 : 1) * millimetresPerMetre * (lengths.get(slots[slot]?.point ?? '') ?? 0),
        })),
        says: `Settlement of the ${end} end of ${point} against the ${fromHead ? 'first' : 'last'} joint, beam by beam`,
        formula: fromHead ? 's = −Σ L · τ' : 's = Σ L · τ',
      },
    }
  })
  return accept(combinationBundles(instrument, slots, made, sensors))
}

/** mm in a metre for one unit of tilt; null for what is no tilt. */
function perMetre(unit: string): number | null {
  const angle = findUnit(unit)?.dimension === 'angle'
  const outcome = convert(1, unit, angle ? 'mrad' : 'mm/m')
  return outcome.ok ? outcome.value : null
}
