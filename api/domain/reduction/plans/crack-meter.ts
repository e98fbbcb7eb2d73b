import { accept, type Outcome, reject } from '../../outcome.ts'
import type { Instrument } from '../../site/tables.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import { decimalsOf, type PlanSite, pace, sensorsOf, unitFaults } from './plan-site.ts'
import { planThreeStuds } from './three-studs.ts'

/**
 * Resultant of a crack meter of two or three axes: opening, shear along the crack and step across its plane. None
 * where it has one axis, or several sensors of one: then it is not one crack. Of three studs, opening and shear.
 */
export function planCrackMeter(instrument: Instrument, site: PlanSite): Outcome<readonly DerivedBundle[]> {
  const points = site.points.filter((point) => point.instrument === instrument.id)
  const axes = (['opening', 'shear', 'step'] as const).map((measure) => sensorsOf(points, site, measure))
  const sensors = axes.flat()
  if (sensors.length === 0) return planThreeStuds(instrument, site)
  if (sensors.length < 2 || axes.some((own) => own.length > 1)) return accept([])
  const unit = sensors[0]?.unit ?? ''
  const faults = unitFaults(instrument, sensors, unit)
  if (faults.length > 0) return reject(...faults)
  return accept([
    {
      instrument: instrument.id,
      rule: { kind: 'resultant' },
      slots: sensors.map(({ id, point }) => ({
        point,
        depthMetres: 0,
        series: [id],
        maximumAgeMinutes: null,
      })),
      outputs: [
        {
          id: `${instrument.id}/resultant`,
          point: instrument.id,
          measure: 'resultant',
          unit,
          decimals: decimalsOf(sensors),
          positiveMeans: 'movement of one side against the other, whichever way; never negative',
          of: 'whole',
        },
      ],
      ...pace(sensors),
    },
  ])
}
