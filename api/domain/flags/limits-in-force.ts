import type { CheckLimit, Sensor } from '../site/tables.ts'
import type { CheckLimits } from './flag-reading.ts'
import { noLimits } from './limits.ts'
import { type ReadingCheck, readingChecks } from './reading-checks.ts'

/** How a sensor's readings of a stretch of time are checked. */
export interface SeriesChecks {
  readonly series: string
  /** First instant that these limits apply to; null: any before the next stretch. */
  readonly fromEpochMs: number | null
  /** First instant that they no longer apply to; null: they still do. */
  readonly untilEpochMs: number | null
  readonly limits: CheckLimits
  /** Series beside it, for the duplicate check. */
  readonly against: string | null
  readonly temperature: string | null
  /** Record that each limit comes from; absent: it needs none (the sensor's own range, the order of time). */
  readonly records: Readonly<Partial<Record<ReadingCheck, CheckLimit>>>
}

/** Clocks of loggers and of servers differ by as much as this without either being wrong. */
export const clockToleranceSeconds = 120

/**
 * The checks of every sensor, a stretch of time each, in order: its own record before that of its measure, of either the
 * one that began last. Without any record two are still made, because physics gives them: values outside the sensor's
 * stated range fail, and a reading received before it was taken is suspect. A record of the range narrows the sensor's
 * range, it does not widen it.
 */
export function checksOfSensors(
  sensors: readonly Sensor[],
  records: readonly CheckLimit[],
): readonly SeriesChecks[] {
  return sensors.flatMap((sensor) => {
    const own = limitsOfSensor(sensor, records)
    const begins = [...new Set(own.flatMap(({ validFrom }) => validFrom ?? []))].sort((a, b) => a - b)
    return [null, ...begins].map((fromEpochMs, at) => ({
      ...checksOfStretch(sensor, limitsInForce(own, fromEpochMs)),
      fromEpochMs,
      untilEpochMs: begins[at] ?? null,
    }))
  })
}

/** The records that may ever hold for a sensor: its own and those of its measure. */
export const limitsOfSensor = (
  sensor: { readonly id: string; readonly measure: string },
  records: readonly CheckLimit[],
): readonly CheckLimit[] =>
  records.filter(({ series, measure }) =>
    series === null ? measure === sensor.measure : series === sensor.id,
  )

/** Of the records of a sensor, the one of each check that holds at an instant; null: before any that has a beginning. */
export function limitsInForce(own: readonly CheckLimit[], atEpochMs: number | null): SeriesChecks['records'] {
  const began = own
    .filter(({ validFrom }) => (validFrom ?? null) === null || (atEpochMs ?? -Infinity) >= (validFrom ?? 0))
    .toSorted((one, other) => (other.validFrom ?? -Infinity) - (one.validFrom ?? -Infinity) || 0)
  return Object.fromEntries(
    readingChecks.flatMap((check) => {
      const record =
        began.find((one) => one.check === check && one.series !== null) ??
        began.find((one) => one.check === check)
      return record ? [[check, record]] : []
    }),
  )
}

function checksOfStretch(
  sensor: Sensor,
  records: SeriesChecks['records'],
): Omit<SeriesChecks, 'fromEpochMs' | 'untilEpochMs'> {
  const limits = Object.fromEntries(
    Object.entries(records).map(([check, { suspectBelow, suspectAbove, failBelow, failAbove }]) => [
      check,
      { suspectBelow, suspectAbove, failBelow, failAbove },
    ]),
  ) as CheckLimits
  const { rangeLow, rangeHigh } = sensor
  const range = limits.range ?? noLimits
  return {
    series: sensor.id,
    against: records.duplicate?.against ?? null,
    temperature: limits.temperature ? sensor.temperatureSensor : null,
    records,
    limits: {
      clock: { ...noLimits, suspectBelow: -clockToleranceSeconds },
      ...limits,
      ...(rangeLow === null && rangeHigh === null && limits.range === undefined
        ? {}
        : {
            range: {
              ...range,
              failBelow: innermost(Math.max, rangeLow, range.failBelow),
              failAbove: innermost(Math.min, rangeHigh, range.failAbove),
            },
          }),
    },
  }
}

const innermost = (pick: typeof Math.max, one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : pick(one, other)
