import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Instrument } from '../../site/tables.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import { studOutputs } from '../rules/three-studs.ts'
import { placeOfStud } from '../three-studs.ts'
import { decimalsOf, instrumentIssue, type PlanSite, pace, sensorsOf, unitFaults } from './plan-site.ts'

const lengthMeasures = ['stud-length-ab', 'stud-length-ac', 'stud-length-bc'] as const

/**
 * Opening and shear of a crack from the lengths between three studs, read together. Nothing where no lengths are read;
 * refused where one of the three is not, or the lengths at zero are not stated or make no triangle.
 */
export function planThreeStuds(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const points = site.points.filter((point) => point.instrument === instrument.id)
  const lengths = lengthMeasures.map((measure) => sensorsOf(points, site, measure))
  const sensors = lengths.flat()
  if (sensors.length === 0) return accept([])
  if (lengths.some((own) => own.length !== 1))
    return reject(
      instrumentIssue(
        instrument,
        'id',
        'three-lengths-expected',
        lengthMeasures.join(', '),
        `${instrument.id} reads lengths between studs, but not each of AB, AC and BC once. Give it one sensor of ${lengthMeasures.join(', ')}.`,
      ),
    )
  const faults = unitFaults(instrument, sensors, 'mm')
  if (faults.length > 0) return reject(...faults)
  const { studZeroAbMm: ab, studZeroAcMm: ac, studZeroBcMm: bc } = instrument
  if (ab == null || ac == null || bc == null)
    return reject(
      instrumentIssue(
        instrument,
        ab == null ? 'studZeroAbMm' : ac == null ? 'studZeroAcMm' : 'studZeroBcMm',
        'stud-zero-expected',
        'a length in mm',
        `${instrument.id} has no lengths between its studs at zero, so nothing can be told of the crack. Give studZeroAbMm, studZeroAcMm and studZeroBcMm.`,
      ),
    )
  const zero = { ab, ac, bc }
  if (placeOfStud(zero) === null)
    return reject(
      instrumentIssue(
        instrument,
        'studZeroAcMm',
        'no-triangle',
        'three lengths of which none is longer than the other two together',
        `Lengths ${ab}, ${ac} and ${bc} mm of ${instrument.id} make no triangle. Look for a slip in one of them.`,
      ),
    )
  const common = { point: instrument.id, unit: 'mm', decimals: decimalsOf(sensors) }
  return accept([
    {
      instrument: instrument.id,
      rule: { kind: 'three-studs', zero },
      slots: sensors.map(({ id, point }) => ({
        point,
        depthMetres: 0,
        series: [id],
        maximumAgeMinutes: null,
      })),
      outputs: [
        {
          ...common,
          id: `${instrument.id}/opening`,
          measure: 'opening',
          positiveMeans: 'the crack opens: stud C moves away from the line through A and B',
          of: studOutputs.opening,
        },
        {
          ...common,
          id: `${instrument.id}/shear`,
          measure: 'shear',
          positiveMeans: 'stud C moves along that line, from A towards B',
          of: studOutputs.shear,
        },
      ],
      ...pace(sensors),
    },
  ])
}
