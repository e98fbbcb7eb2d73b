import { accept, type Outcome, reject } from '../outcome.ts'
import { madToSigma, median, medianAbsoluteDeviation } from '../statistics/spread.ts'
import { theilSen } from '../statistics/trend.ts'
import type { LoggerDay } from './logger-day.ts'

export interface ClockDrift {
  /** Positive: the logger's clock runs fast. */
  readonly gainSecondsPerDay: number
  /** 95 %. */
  readonly interval: readonly [low: number, high: number]
  readonly days: number
  /** Least receipt less stamp of the newest days; negative only where the clock is ahead. */
  readonly leastDelaySeconds: number
  /** Last day before which the clock was set, and by how much forward; null where it was not in the days given. */
  readonly setAfterDayEpochMs: number | null
  readonly setBySeconds: number | null
}

const fewestDays = 5
/** A link whose quickest readings of a day differ by more tells nothing of a clock. */
const steadySeconds = 120
const jumpSeconds = 300

/**
 * Drift of a logger's clock from the quickest reading of each day: no way is quicker than the quickest, so receipt less
 * stamp falls by what the clock gains (Theil's and Sen's slope, its interval by Kendall's variance). Only days since the
 * clock was last set count. Refused where readings come by hand or in files, whose receipt says nothing of a clock.
 */
export function clockDrift(days: readonly LoggerDay[]): Outcome<ClockDrift> {
  const seen = days.filter((day) => day.leastDelaySeconds !== null)
  const steps = seen.slice(1).map((day, at) => {
    const before = seen[at] as LoggerDay
    return {
      days: (day.dayEpochMs - before.dayEpochMs) / 86_400_000,
      seconds: (day.leastDelaySeconds as number) - (before.leastDelaySeconds as number),
    }
  })
  if (seen.length < fewestDays) return tooFew(seen.length)
  const daily = steps.map((step) => step.seconds / step.days)
  const usual = median(daily)
  const scatter = madToSigma * medianAbsoluteDeviation(daily)
  if (scatter > steadySeconds)
    return reject({
      code: 'delay-unsteady',
      message: `The quickest readings of its days differ by ${Math.round(scatter)} s from one day to the next: they are not sent as they are taken, so receipt tells nothing of its clock. Read the clock at the logger.`,
      value: String(Math.round(scatter)),
    })
  const limit = Math.max(jumpSeconds, 10 * scatter)
  const jump = steps.findLastIndex((step) => Math.abs(step.seconds - usual * step.days) > limit)
  const since = jump < 0 ? seen : seen.slice(jump + 1)
  if (since.length < fewestDays) return tooFew(since.length, jump >= 0)
  const first = since[0] as LoggerDay
  const line = theilSen(
    since.map((day) => (day.dayEpochMs - first.dayEpochMs) / 86_400_000),
    since.map((day) => day.leastDelaySeconds as number),
  )
  if (line.slopeInterval === null) return tooFew(since.length)
  const [low, high] = line.slopeInterval
  return accept({
    gainSecondsPerDay: 0 - line.slope,
    interval: [0 - high, 0 - low],
    days: since.length,
    leastDelaySeconds: Math.min(...since.slice(-3).map((day) => day.leastDelaySeconds as number)),
    setAfterDayEpochMs: jump < 0 ? null : (seen[jump] as LoggerDay).dayEpochMs,
    setBySeconds: jump < 0 ? null : 0 - (steps[jump] as { seconds: number }).seconds,
  })
}

const tooFew = (days: number, set = false): Outcome<never> =>
  reject({
    code: 'days-too-few',
    message: `${days} ${days === 1 ? 'day' : 'days'} with readings${set ? ' since its clock was set' : ''} give no drift; ${fewestDays} are needed.`,
    value: String(days),
  })
