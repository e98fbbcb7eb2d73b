import { type VoltageReading, type VoltageTrend, voltageTrend } from './voltage-trend.ts'

/** What a measured voltage says of the time that cells have left. */
export type DaysLeft =
  | { readonly kind: 'below-limit'; readonly volts: number }
  | {
      readonly kind: 'days'
      readonly days: number
      /** 95 %; `high` is Infinity where the slope may be nil. */
      readonly low: number
      readonly high: number
      /** True where it falls faster lately than over all the days: the number then rests on the late days. */
      readonly faster: boolean
    }
  | { readonly kind: 'further-than-seen'; readonly horizonDays: number }
  | { readonly kind: 'no-slope' }
  | { readonly kind: 'not-enough'; readonly reason: string }

export interface BatteryOutlook {
  readonly left: DaysLeft
  readonly trend: VoltageTrend | null
  /** Voltage now at the temperature that the limit is looked at; null without a trend. */
  readonly voltsNow: number | null
}

/** A line is not drawn on further than this many times the days that it was read over. */
const furthestOnward = 3
const cellsChangedVolts = 0.15

/**
 * Days until the voltage of a logger's cells meets a limit at `coldDegC`, by the slope beside temperature. A straight
 * line is drawn on for no more than three times the days read; where the slope cannot be told from nil nothing is said:
 * cells of a flat chemistry stay level and end within days. Readings are a day's means in order of time.
 */
export function batteryOutlook(
  readings: readonly VoltageReading[],
  limitVolts: number,
  nowDays: number,
  coldDegC: number | null,
): BatteryOutlook {
  const sinceChange = afterLastChange(readings)
  const whole = voltageTrend(sinceChange)
  if (!whole.ok)
    return {
      left: { kind: 'not-enough', reason: whole.issues[0]?.message ?? '' },
      trend: null,
      voltsNow: null,
    }
  const half = sinceChange.slice(-Math.max(8, Math.ceil(sinceChange.length / 3)))
  const late = voltageTrend(half)
  const faster = late.ok && late.value.interval[1] < whole.value.interval[0]
  const trend = faster && late.ok ? late.value : whole.value
  const voltsNow = voltsAt(trend, nowDays, coldDegC)
  const read = sinceChange.at(-1)
  if (voltsNow <= limitVolts || (read && read.volts <= limitVolts))
    return { left: { kind: 'below-limit', volts: read?.volts ?? voltsNow }, trend, voltsNow }
  const [steepest, flattest] = trend.interval
  if (flattest >= 0) return { left: { kind: 'no-slope' }, trend, voltsNow }
  const until = (voltsPerDay: number) => daysToLimit(voltsNow, limitVolts, voltsPerDay)
  const span = (sinceChange.at(-1)?.atDays ?? 0) - (sinceChange[0]?.atDays ?? 0)
  const horizonDays = Math.floor(furthestOnward * span)
  const [low, days, high] = [until(steepest), until(trend.voltsPerDay), until(flattest)]
  if (low > horizonDays) return { left: { kind: 'further-than-seen', horizonDays }, trend, voltsNow }
  return { left: { kind: 'days', days, low, high, faster }, trend, voltsNow }
}

/** Days until a voltage on a straight slope meets a limit; Infinity where it does not fall. */
export const daysToLimit = (volts: number, limitVolts: number, voltsPerDay: number): number =>
  voltsPerDay < 0 ? (volts - limitVolts) / -voltsPerDay : Number.POSITIVE_INFINITY

/** On the fitted plane, at the cold if temperature stands in it, else as it is. */
function voltsAt(trend: VoltageTrend, atDays: number, coldDegC: number | null): number {
  const colder =
    trend.voltsPerKelvin === null || trend.temperatureMeanDegC === null || coldDegC === null
      ? 0
      : Math.min(0, trend.voltsPerKelvin * (coldDegC - trend.temperatureMeanDegC))
  return trend.voltsAtStart + trend.voltsPerDay * atDays + colder
}

/** Readings since the cells were last changed: since the voltage last rose by more than weather does from day to day. */
function afterLastChange(readings: readonly VoltageReading[]): readonly VoltageReading[] {
  const risen = readings.findLastIndex(
    (one, at) => at > 0 && one.volts - (readings[at - 1] as VoltageReading).volts > cellsChangedVolts,
  )
  return risen < 0 ? readings : readings.slice(risen)
}
