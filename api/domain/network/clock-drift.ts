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
  /** Day after which the delay jumped, and by how much the clock then went forward; null where it did not. */
  readonly setAfterDayEpochMs: number | null
  readonly setBySeconds: number | null
}

const fewestDays = 5
/** A link whose quickest readings of a day differ by more tells nothing of a clock. */
const steadySeconds = 120
const jumpSeconds = 300
/** No clock is this wrong: readings wait for somebody to fetch them. */
const fastestSecondsPerDay = 3600

/**
 * Drift of a logger's clock from the quickest reading of each day: no way is quicker than the quickest, so receipt less
 * stamp falls by what the clock gains (Theil's and Sen's slope, its interval by Kendall's variance). Days of which nothing
 * came within `lateAfterSeconds` tell of the link and not of the clock; only days since the delay last jumped count, as it
 * does when a clock is set. Refused where readings are fetched by hand, whose receipt says nothing of a clock.
 */
export function clockDrift(days: readonly LoggerDay[], lateAfterSeconds: number): Outcome<ClockDrift> {
  const seen = days.filter(
    (day) => day.leastDelaySeconds !== null && day.leastDelaySeconds <= lateAfterSeconds,
  )
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
  const unsteady = Math.max(scatter, Math.abs(usual))
  if (scatter > steadySeconds || unsteady > fastestSecondsPerDay)
    return reject({
      code: 'delay-unsteady',
      message: `The quickest readings of its days differ by ${Math.round(unsteady)} s from one day to the next: they are not sent as they are taken, so receipt tells nothing of its clock. Read the clock at the logger.`,
      value: String(Math.round(unsteady)),
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
  // Stamps and receipts are whole seconds, so no slope is known better than one over all the days.
  const coarse = 86_400_000 / ((since.at(-1) as LoggerDay).dayEpochMs - first.dayEpochMs)
  const low = Math.min(line.slopeInterval[0], line.slope - coarse)
  const high = Math.max(line.slopeInterval[1], line.slope + coarse)
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
    message: `${days} ${days === 1 ? 'day' : 'days'} with readings${set ? ' since the delay last jumped' : ''} give no drift; ${fewestDays} are needed.`,
    value: String(days),
  })
