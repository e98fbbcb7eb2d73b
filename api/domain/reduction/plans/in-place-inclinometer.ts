import { accept, type Issue, type Outcome, reject } from '../../outcome.ts'
import { type Instrument, type Sensor, siteTables } from '../../site/tables.ts'
import type { DerivedBundle, DerivedOutput, DerivedSlot } from '../rules/derived-bundle.ts'
import { horizontalBundle } from './horizontal-movement.ts'
import { joinFaults } from './joined-segments.ts'
import {
  decimalsOf,
  instrumentIssue,
  type PlanSite,
  pace,
  pointsOf,
  sensorsOf,
  unitFaults,
} from './plan-site.ts'
import { slotsOf } from './slots.ts'

/**
 * What an in-place inclinometer derives: deflection along A at every segment and the greatest of them from its stated
 * still end, or at every segment from its surveyed head; and where all segments have a B axis and the bearing of A is
 * known, movement of the far end to the east and north.
 */
export function planInPlaceInclinometer(
  instrument: Instrument,
  site: PlanSite,
): Outcome<readonly DerivedBundle[]> {
  const points = pointsOf(instrument, site)
  const sensors = sensorsOf(points, site, 'inclination-a')
  if (sensors.length === 0) return accept([])
  const slots = slotsOf(points, sensors)
  const faults = [
    ...unitFaults(instrument, sensors, 'mm'),
    ...sensorFaults(instrument, slots),
    ...joinFaults(instrument, points, slots),
  ]
  const { fixedEnd } = instrument
  if (fixedEnd !== 'toe' && fixedEnd !== 'head' && fixedEnd !== 'surveyed-head')
    return reject(
      ...faults,
      instrumentIssue(
        instrument,
        'fixedEnd',
        'fixed-end-expected',
        'toe, head or surveyed-head',
        `${instrument.id} states no end that is assumed still, so its movements cannot be added up. Write toe, head or surveyed-head.`,
      ),
    )
  if (faults.length > 0) return reject(...faults)
  const horizontal = horizontalBundle(instrument, site, points, slots, sensors)
  if (!horizontal.ok) return horizontal
  if (fixedEnd === 'surveyed-head') return horizontal
  return accept([deflections(instrument, slots, sensors, fixedEnd), ...horizontal.value])
}

function deflections(
  instrument: Instrument,
  slots: readonly DerivedSlot[],
  sensors: readonly Sensor[],
  fixedEnd: 'toe' | 'head',
): DerivedBundle {
  const output = (point: string, of: DerivedOutput['of']): DerivedOutput => ({
    id: `${point}/deflection`,
    point,
    measure: 'deflection',
    unit: 'mm',
    decimals: decimalsOf(sensors),
    positiveMeans: null,
    of,
  })
  return {
    instrument: instrument.id,
    rule: { kind: 'cumulative', fixedEnd },
    slots,
    outputs: [output(instrument.id, 'whole'), ...slots.map(({ point }, slot) => output(point, slot))],
    ...pace(sensors),
  }
}

const sensorFaults = ({ id }: Instrument, slots: readonly DerivedSlot[]): readonly Issue[] =>
  slots
    .filter(({ series }) => series.length === 0)
    .map(({ point }) => ({
      code: 'segment-without-sensor',
      file: siteTables.sensors.file,
      column: 'point',
      value: point,
      message: `Segment ${point} of ${id} has no inclination-a sensor, so nothing can be added up across it. Add its sensor, or take the point out.`,
    }))
