import type { ClockDrift } from '#domain/network/clock-drift.ts'
import type { LoggerStanding } from '#domain/network/logger-condition.ts'
import type { Completeness } from '#domain/network/logger-day.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { BatteryOutlook } from '#domain/power/days-left.ts'
import { formatValue } from '../../ui/format-value.ts'

/** Signs that differ by shape as well as by words; none of them is a colour. */
export const standingWords: Readonly<Record<LoggerStanding, string>> = {
  silent: '✕ silent',
  'never-heard': '? never heard',
  'look-into': '! look into',
  'heard-in-part': '◦ heard, cells unknown',
  heard: '• heard',
  'no-wiring': '– nothing wired',
}

/** `663 of 664`, or that nothing was due. */
export const completenessWords = ({ due, held }: Completeness): string =>
  due === 0 ? 'nothing due' : `${held} of ${due}`

/** Share received before the logger counts as late. */
export const deliveryWords = ({ inTimeShare }: Completeness): string =>
  inTimeShare === null
    ? '–'
    : `${inTimeShare > 0.995 && inTimeShare < 1 ? '> 99' : Math.round(100 * inTimeShare)} %`

/** What is told first, and beneath it what bounds it. */
export type Told = readonly [first: string, beneath: string]

/** Seconds a day gained, and the interval; fast is positive. */
export function driftWords(drift: Outcome<ClockDrift>): Told {
  if (!drift.ok)
    return drift.issues[0]?.code === 'delay-unsteady'
      ? ['not known', 'fetched by hand']
      : ['not known', 'too few days']
  const { gainSecondsPerDay, interval } = drift.value
  return [signed(gainSecondsPerDay), `${signed(interval[0])} to ${signed(interval[1])}`]
}

const signed = (value: number): string => {
  const text = formatValue(value, 1)
  return value > 0 && Number(value.toFixed(1)) !== 0 ? `+${text}` : text
}

/** Voltage now at the coldest day, and the days that the cells have left with their interval, or why none are stated. */
export function batteryWords(battery: BatteryOutlook | null, limitVolts: number | null): Told {
  if (limitVolts === null) return ['not known', 'no limit stated']
  if (battery === null) return ['not known', 'no days at hand']
  const { left, voltsNow } = battery
  const now = voltsNow === null ? 'not known' : `${formatValue(voltsNow, 2)} V`
  switch (left.kind) {
    case 'below-limit':
      return [`${formatValue(left.volts, 2)} V`, 'change now']
    case 'days':
      return [now, `${days(left.days)} d (${days(left.low)} to ${days(left.high)})`]
    case 'further-than-seen':
      return [now, `more than ${left.horizonDays} d`]
    case 'no-slope':
      return [now, 'no slope: when they end is not known']
    case 'not-enough':
      return ['not known', 'too few days']
  }
}

const days = (value: number) => (Number.isFinite(value) ? value.toFixed(0) : 'unknown')
