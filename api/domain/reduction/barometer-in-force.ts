import { groupBy } from '../group-by.ts'
import type { Sensor, SensorBarometer } from '../site/tables.ts'

/** A barometer and the time in which it corrects a sensor. */
export interface BarometerPeriod {
  /** Series of it; null: none is named. */
  readonly barometer: string | null
  /** The record that says so; null: the one named with the sensor, which has no date. */
  readonly record: SensorBarometer | null
  /** -Infinity of the one named with the sensor. */
  readonly fromEpochMs: number
  /** Exclusive; Infinity while it lasts. */
  readonly untilEpochMs: number
}

/** Which barometer corrects each sensor, and when. */
export type BarometersOf = (
  sensor: Pick<Sensor, 'id' | 'barometerSensor'>,
) => readonly [BarometerPeriod, ...BarometerPeriod[]]

/**
 * Barometers by the dated records of a site, without overlap and in order of time. The first is the one named with the
 * sensor, until a record begins. Of records that begin together the highest version holds. Records that name the
 * barometer in force already make no new period, so that nothing is taken as changed.
 */
export function barometersOf(records: readonly SensorBarometer[]): BarometersOf {
  const bySensor = groupBy(records, ({ sensor }) => sensor)
  return ({ id, barometerSensor }) => {
    const first: BarometerPeriod = {
      barometer: barometerSensor,
      record: null,
      fromEpochMs: Number.NEGATIVE_INFINITY,
      untilEpochMs: Number.POSITIVE_INFINITY,
    }
    const holding = (bySensor.get(id) ?? [])
      .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
      .filter((one, at, sorted) => one.validFrom !== sorted[at + 1]?.validFrom)
    const periods: [BarometerPeriod, ...BarometerPeriod[]] = [first]
    for (const record of holding) {
      const last = periods.at(-1) as BarometerPeriod
      if (last.barometer === record.barometer) continue
      periods[periods.length - 1] = { ...last, untilEpochMs: record.validFrom }
      periods.push({
        barometer: record.barometer,
        record,
        fromEpochMs: record.validFrom,
        untilEpochMs: Number.POSITIVE_INFINITY,
      })
    }
    return periods
  }
}

/** The period that holds at an instant; there always is one. */
export const barometerAt = (
  [first, ...later]: readonly [BarometerPeriod, ...BarometerPeriod[]],
  atEpochMs: number,
): BarometerPeriod => later.findLast(({ fromEpochMs }) => fromEpochMs <= atEpochMs) ?? first

/** Every barometer that ever corrects a sensor, once each. */
export const everyBarometer = (periods: readonly BarometerPeriod[]): readonly string[] => [
  ...new Set(periods.flatMap(({ barometer }) => barometer ?? [])),
]
