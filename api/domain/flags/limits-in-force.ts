import type { CheckLimit, Sensor } from '../site/tables.ts'
import type { CheckLimits } from './flag-reading.ts'
import { noLimits } from './limits.ts'
import { type ReadingCheck, readingChecks } from './reading-checks.ts'

/** How a sensor's readings are checked. */
export interface SeriesChecks {
  readonly series: string
  readonly limits: CheckLimits
  /** Series beside it, for the duplicate check. */
  readonly against: string | null
  readonly temperature: string | null
  /** Record that each limit comes from; absent: it needs none (the sensor's own range, the order of time). */
  readonly records: Readonly<Partial<Record<ReadingCheck, CheckLimit>>>
}

/** Clocks of loggers and of servers differ by as much as this without either being wrong. */
const clockToleranceSeconds = 120

/**
 * The checks of every sensor: its own record before that of its measure. Without any record two are still made, because
 * physics gives them: values outside the sensor's stated range fail, and a reading received before it was taken is
 * suspect. A record of the range narrows the sensor's range, it does not widen it.
 */
export function checksOfSensors(
  sensors: readonly Sensor[],
  records: readonly CheckLimit[],
): readonly SeriesChecks[] {
  return sensors.map((sensor) => {
    const own = (check: ReadingCheck) =>
      records.find((one) => one.check === check && one.series === sensor.id) ??
      records.find((one) => one.check === check && one.series === null && one.measure === sensor.measure)
    const found = readingChecks.flatMap((check) => {
      const record = own(check)
      return record ? [[check, record] as const] : []
    })
    const ownRecords = Object.fromEntries(found)
    const limits = Object.fromEntries(
      found.map(([check, { suspectBelow, suspectAbove, failBelow, failAbove }]) => [
        check,
        { suspectBelow, suspectAbove, failBelow, failAbove },
      ]),
    ) as CheckLimits
    const { rangeLow, rangeHigh } = sensor
    const range = limits.range ?? noLimits
    return {
      series: sensor.id,
      against: ownRecords.duplicate?.against ?? null,
      temperature: limits.temperature ? sensor.temperatureSensor : null,
      records: ownRecords,
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
  })
}

const innermost = (pick: typeof Math.max, one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : pick(one, other)
