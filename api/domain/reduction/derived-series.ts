import { groupBy } from '../group-by.ts'
import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import { type Instrument, type MeasuringPoint, type Sensor, siteTables } from '../site/tables.ts'
import type { Measure } from '../site/vocabulary.ts'
import { isSameUnit } from '../units.ts'
import type { FixedEnd } from './cumulative-deflection.ts'

/** `mean`: of the members that have a value; `cumulative`: sums from the still end. */
export type DerivedRule =
  | { readonly kind: 'mean' }
  | { readonly kind: 'cumulative'; readonly fixedEnd: FixedEnd }

/** One place in an instrument and the series that have measured there, the first one first, replacements after it. */
export interface DerivedSlot {
  readonly point: string
  readonly depthMetres: number
  readonly series: readonly string[]
}

/** A series made from the members of an instrument. */
export interface DerivedOutput {
  /** Series id: instrument/measure, or point/measure for one place of a profile. */
  readonly id: string
  readonly measure: Measure
  /** `whole`: the mean, or the greatest deflection; a number: the cumulative deflection at that slot, from 0. */
  readonly of: 'whole' | number
}

/** What an instrument's members become, at each instant at which any of them was read. */
export interface DerivedBundle {
  readonly instrument: string
  readonly rule: DerivedRule
  /** From the top down. */
  readonly slots: readonly DerivedSlot[]
  readonly outputs: readonly DerivedOutput[]
  readonly unit: string
  /** Of its members: the coarsest, the longest, the most patient. */
  readonly decimals: number
  readonly intervalMinutes: number
  readonly lateAfterMinutes: number
}

/**
 * The series that instruments derive from their members: strut force as the mean of its gauges, deflection of an
 * in-place inclinometer from its A-axis increments and its stated fixed end. Refused, with record and reason, where
 * members have different units, a segment has no sensor or no still end is stated.
 */
export function derivedBundles(
  model: Pick<SiteModel, 'instruments' | 'points' | 'sensors'>,
): Outcome<readonly DerivedBundle[]> {
  const issues: Issue[] = []
  const known = new Set(model.sensors.map(({ id }) => id))
  const bundles = model.instruments.flatMap((instrument): readonly DerivedBundle[] => {
    const measure = memberMeasures[instrument.kind]
    if (measure === undefined) return []
    // A point named as its instrument stands for the whole of it: it carries the derived series, not a member.
    const points = model.points.filter(
      (point) => point.instrument === instrument.id && point.id !== instrument.id,
    )
    const sensors = model.sensors.filter(
      (sensor) => sensor.measure === measure && points.some(({ id }) => id === sensor.point),
    )
    if (sensors.length === 0) return []
    const made =
      instrument.kind === 'strut-load'
        ? meanOf(instrument, points, sensors)
        : sumOf(instrument, points, sensors)
    if (!made.ok) {
      issues.push(...made.issues)
      return []
    }
    const outputs = made.value.outputs.filter(({ id }) => !known.has(id))
    return outputs.length > 0 ? [{ ...made.value, outputs }] : []
  })
  return issues.length > 0 ? reject(...issues) : accept(bundles)
}

const memberMeasures: Readonly<Partial<Record<Instrument['kind'], Measure>>> = {
  'strut-load': 'force',
  'in-place-inclinometer': 'inclination-a',
}

function meanOf(
  instrument: Instrument,
  points: readonly MeasuringPoint[],
  sensors: readonly Sensor[],
): Outcome<DerivedBundle> {
  const slots = slotsOf(points, sensors).filter(({ series }) => series.length > 0)
  const unit = sensors[0]?.unit ?? ''
  const faults = unitFaults(instrument, sensors, unit)
  if (faults.length > 0) return reject(...faults)
  const outputs = [{ id: `${instrument.id}/force`, measure: 'force', of: 'whole' }] as const
  return accept({
    instrument: instrument.id,
    rule: { kind: 'mean' },
    slots,
    outputs,
    unit,
    ...coarsest(sensors),
  })
}

function sumOf(
  instrument: Instrument,
  points: readonly MeasuringPoint[],
  sensors: readonly Sensor[],
): Outcome<DerivedBundle> {
  const slots = slotsOf(points, sensors)
  const faults = [...unitFaults(instrument, sensors, 'mm')]
  for (const { point } of slots.filter(({ series }) => series.length === 0))
    faults.push({
      code: 'segment-without-sensor',
      file: siteTables.sensors.file,
      column: 'point',
      value: point,
      message: `Segment ${point} of ${instrument.id} has no inclination-a sensor, so nothing can be added up across it. Add its sensor, or take the point out.`,
    })
  const { fixedEnd } = instrument
  if (fixedEnd !== 'toe' && fixedEnd !== 'head')
    return reject(...faults, {
      code: 'fixed-end-expected',
      file: siteTables.instruments.file,
      column: 'fixedEnd',
      value: fixedEnd ?? '',
      expected: 'toe or head',
      message: `${instrument.id} states no end that is assumed still, so its movements cannot be added up. Write toe or head.`,
    })
  if (faults.length > 0) return reject(...faults)
  const outputs: readonly DerivedOutput[] = [
    { id: `${instrument.id}/deflection`, measure: 'deflection', of: 'whole' },
    ...slots.map(({ point }, slot) => ({
      id: `${point}/deflection`,
      measure: 'deflection' as const,
      of: slot,
    })),
  ]
  const rule = { kind: 'cumulative', fixedEnd } as const
  return accept({ instrument: instrument.id, rule, slots, outputs, unit: 'mm', ...coarsest(sensors) })
}

/** Points that replace one another share a slot, named after the newest. */
function slotsOf(points: readonly MeasuringPoint[], sensors: readonly Sensor[]): readonly DerivedSlot[] {
  const byId = new Map(points.map((point) => [point.id, point]))
  const generations = (point: MeasuringPoint): readonly MeasuringPoint[] => {
    const older = point.replaces === null ? undefined : byId.get(point.replaces)
    return older && older.id !== point.id ? [...generations(older), point] : [point]
  }
  const sensorByPoint = new Map(sensors.map((sensor) => [sensor.point, sensor.id]))
  const byFirst = groupBy(points.map(generations), ([first]) => first?.id)
  return [...byFirst.values()]
    .map((lines) => lines.toSorted((one, other) => other.length - one.length)[0] ?? [])
    .map((line) => ({
      point: line.at(-1)?.id ?? '',
      depthMetres: line.at(-1)?.depthMetres ?? 0,
      series: line.flatMap(({ id }) => sensorByPoint.get(id) ?? []),
    }))
    .toSorted((one, other) => one.depthMetres - other.depthMetres || (one.point < other.point ? -1 : 1))
}

const unitFaults = (instrument: Instrument, sensors: readonly Sensor[], unit: string): readonly Issue[] =>
  sensors
    .filter((sensor) => !isSameUnit(sensor.unit, unit))
    .map((sensor) => ({
      code: 'members-of-different-units',
      file: siteTables.sensors.file,
      column: 'unit',
      value: sensor.unit,
      expected: unit,
      message: `${sensor.id} is given in ${sensor.unit}, but ${instrument.id} is made from members in ${unit}. Give all of them one unit.`,
    }))

const coarsest = (sensors: readonly Sensor[]) => ({
  decimals: Math.min(...sensors.map(({ decimals }) => decimals)),
  intervalMinutes: Math.max(...sensors.map(({ intervalMinutes }) => intervalMinutes)),
  lateAfterMinutes: Math.max(...sensors.map(({ lateAfterMinutes }) => lateAfterMinutes)),
})
