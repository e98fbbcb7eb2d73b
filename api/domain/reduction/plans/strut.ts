import { accept, reject } from '../../outcome.ts'
import type { DerivedBundle } from '../rules/derived-bundle.ts'
import {
  decimalsOf,
  instrumentIssue,
  type Planner,
  pace,
  pointsOf,
  sensorsOf,
  unitFaults,
} from './plan-site.ts'
import { measuredSlots } from './slots.ts'

/**
 * Strut force: the mean of its gauges; and, where the strut states its thermal factor, the thermal share
 * factor · (T − T reference) and the force without it. A gauge or thermometer that has no value leaves the others. Where
 * no gauge has a thermometer of its own, those that the gauges name as companions serve.
 */
export const planStrut: Planner = (instrument, site) => {
  const points = pointsOf(instrument, site)
  const sensors = sensorsOf(points, site, 'force')
  if (sensors.length === 0) return accept([])
  const unit = sensors[0]?.unit ?? ''
  const faults = unitFaults(instrument, sensors, unit)
  if (faults.length > 0) return reject(...faults)
  const gauges = measuredSlots(points, sensors)
  const shared = { unit, decimals: decimalsOf(sensors), point: instrument.id, positiveMeans: null }
  const force: DerivedBundle = {
    instrument: instrument.id,
    rule: { kind: 'mean' },
    slots: gauges,
    outputs: [{ ...shared, id: `${instrument.id}/force`, measure: 'force', of: 'whole' }],
    ...pace(sensors),
  }
  const factor = instrument.thermalFactorKnPerKelvin ?? null
  if (factor === null) return accept([force])

  const reference = instrument.thermalReferenceDegC ?? null
  if (reference === null)
    return reject(
      instrumentIssue(
        instrument,
        'thermalReferenceDegC',
        'thermal-reference-expected',
        'a temperature in degC',
        `${instrument.id} states a thermal factor, but not the temperature at which the thermal share is nil. Give thermalReferenceDegC.`,
      ),
    )
  const own = sensorsOf(points, site, 'temperature')
  const named = new Set(sensors.map(({ temperatureSensor }) => temperatureSensor))
  const thermometers = own.length > 0 ? own : site.sensors.filter(({ id }) => named.has(id))
  const warmth = measuredSlots(
    own.length > 0 ? points : site.points.filter(({ id }) => thermometers.some(({ point }) => point === id)),
    thermometers,
  )
  if (warmth.length === 0)
    return reject(
      instrumentIssue(
        instrument,
        'thermalFactorKnPerKelvin',
        'thermometer-expected',
        'a temperature sensor at its gauges',
        `${instrument.id} states a thermal factor, but none of its gauges has a temperature sensor or names one as its companion. Add one or take the factor out.`,
      ),
    )
  const thermalFaults = [
    ...unitFaults(instrument, sensors, 'kN'),
    ...unitFaults(instrument, thermometers, 'degC'),
  ]
  if (thermalFaults.length > 0) return reject(...thermalFaults)
  return accept([
    force,
    {
      instrument: instrument.id,
      rule: {
        kind: 'thermal-split',
        gauges: gauges.length,
        factorKnPerKelvin: factor,
        referenceDegC: reference,
      },
      slots: [...gauges, ...warmth],
      outputs: [
        { ...shared, id: `${instrument.id}/thermal-force`, measure: 'thermal-force', of: 0 },
        { ...shared, id: `${instrument.id}/force-less-thermal`, measure: 'force-less-thermal', of: 1 },
      ],
      ...pace([...sensors, ...thermometers]),
    },
  ])
}
