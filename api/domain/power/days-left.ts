import { daysOnCurve, voltageCurve } from './voltage-curve.ts'
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
      /** True where it falls faster lately than before: then days and `low` follow the curve, `high` the straight line. */
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

/** A trend is not drawn on further than this many times the days that it was read over. */
const furthestOnward = 3
/** Cells at their end fall faster than a parabola: the lower bound allows its growth to double on the way. */
const mostGrowth = 2
const cellsChangedVolts = 0.15

/**
 * Days until the voltage of a logger's cells meets a limit at `coldDegC`, by the slope beside temperature; where it falls
 * ever faster a straight line would promise too much, and the growth of the slope is carried on. A trend is drawn on for no more than three times the days read; where the slope cannot be told from nil nothing is said:
 * cells of a flat chemistry stay level and end within days. Readings are a day's means in order of time.
 */
export function batteryOutlook(
  readings: readonly VoltageReading[],
  limitVolts: number,
  nowDays: number,
  coldDegC: number | null,
): BatteryOutlook {
  const read = readings.at(-1)
  // What the last reading says needs no trend, and cells that swing about their limit have none.
  if (read && read.volts <= limitVolts)
    return { left: { kind: 'below-limit', volts: read.volts }, trend: null, voltsNow: null }
  const sinceChange = afterLastChange(readings, limitVolts)
  const whole = voltageTrend(sinceChange)
  if (!whole.ok)
    return {
      left: { kind: 'not-enough', reason: whole.issues[0]?.message ?? '' },
      trend: null,
      voltsNow: null,
    }
  const trend = whole.value
  const bent = voltageCurve(sinceChange, nowDays, coldDegC)
  const curve = bent.ok && bent.value.growthInterval[1] < 0 ? bent.value : null
  const voltsNow = curve?.voltsNow ?? voltsAt(trend, nowDays, coldDegC)
  if (voltsNow <= limitVolts)
    return { left: { kind: 'below-limit', volts: read?.volts ?? voltsNow }, trend, voltsNow }
  const [steepest, flattest] = curve?.slopeInterval ?? trend.interval
  if (curve === null && flattest >= 0) return { left: { kind: 'no-slope' }, trend, voltsNow }
  const fallVolts = voltsNow - limitVolts
  const until = (voltsPerDay: number) => daysToLimit(voltsNow, limitVolts, voltsPerDay)
  const [low, days, high] = curve
    ? [
        daysOnCurve(fallVolts, steepest, mostGrowth * curve.growthInterval[0]),
        daysOnCurve(fallVolts, curve.voltsPerDayNow, curve.voltsPerDayPerDay),
        until(flattest),
      ]
    : [until(steepest), until(trend.voltsPerDay), until(flattest)]
  const span = (read?.atDays ?? 0) - (sinceChange[0]?.atDays ?? 0)
  const horizonDays = Math.floor(furthestOnward * span)
  if (low > horizonDays) return { left: { kind: 'further-than-seen', horizonDays }, trend, voltsNow }
  return { left: { kind: 'days', days, low, high, faster: curve !== null }, trend, voltsNow }
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

/**
 * Readings since the cells were last changed: since the voltage last rose by more than weather does from day to day. New cells
 * do not stand at or below the limit at which they are changed: a rise that ends there is that of cells at their end.
 */
function afterLastChange(readings: readonly VoltageReading[], limitVolts: number): readonly VoltageReading[] {
  const risen = readings.findLastIndex(
    (one, at) =>
      at > 0 &&
      one.volts > limitVolts &&
      one.volts - (readings[at - 1] as VoltageReading).volts > cellsChangedVolts,
  )
  return risen < 0 ? readings : readings.slice(risen)
}
