import { clockDrift } from '../../network/clock-drift.ts'
import { completenessSince } from '../../network/logger-day.ts'
import type { LoggerRecord } from '../review-case.ts'
import type { KnownNetwork, ReadColumns, ReviewedSeries } from './reviewed-site.ts'

/** What is known of loggers and links. */
export interface AroundLogger {
  /** As it was known at the instant; null: not known. */
  readonly network: KnownNetwork | null
  /** Of its logger; null: not measured. */
  readonly battery: LoggerRecord['battery']
  /** Loggers that stand beside it. */
  readonly beside: readonly string[]
}

/** How its logger and link did, as the network document tells it; null where the logger is not in it. */
export function loggerRecord(
  logger: string,
  subject: ReviewedSeries,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
  readings: ReadColumns,
  { network, battery, beside }: AroundLogger,
): LoggerRecord | null {
  const facts = network?.loggers.find((one) => one.logger === logger)
  if (!facts) return null
  const lateSeconds = subject.lateAfterMinutes * 60
  const { due, held, inTime } = completenessSince(facts.days, fromEpochMs)
  const drift = clockDrift(facts.days, (facts.lateAfterMinutes ?? 0) * 60)
  // Of one that nothing is known of it is not said that it went on.
  const known = beside.flatMap((one) => {
    const other = network?.loggers.find((another) => another.logger === one)
    const share = completenessSince(other?.days ?? [], fromEpochMs).inTimeShare
    return share === null ? [] : [{ logger: one, share }]
  })
  const silent = known.filter(({ share }) => share < 0.9).map((one) => one.logger)
  return {
    logger,
    due,
    inTime,
    later: held - inTime,
    longestSilence: longestSilence(readings, lateSeconds, subject.intervalMinutes * 60_000, {
      fromEpochMs,
      asOfEpochMs,
    }),
    clockSecondsPerDay: drift.ok
      ? {
          value: drift.value.gainSecondsPerDay,
          low: drift.value.interval[0],
          high: drift.value.interval[1],
        }
      : null,
    battery,
    silentBeside: { silent: silent.length, of: known.length, loggers: silent },
  }
}

/** Longest time in which nothing of the series had come in time, from its first reading in the stretch on. */
function longestSilence(
  readings: ReadColumns,
  lateSeconds: number,
  intervalMs: number,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
): LoggerRecord['longestSilence'] {
  const after = readings.number('received_after_s')
  const at = Array.from(readings.number('at_ms'))
  const known = at.filter((_, row) => (after[row] as number) <= lateSeconds)
  const instants = [Math.max(fromEpochMs, at[0] ?? fromEpochMs), ...known, asOfEpochMs]
  let longest: LoggerRecord['longestSilence'] = null
  for (let i = 1; i < instants.length; i++) {
    const [from, until] = [instants[i - 1] as number, instants[i] as number]
    if (until - from < 2 * intervalMs) continue
    if (!longest || until - from > longest.untilEpochMs - longest.fromEpochMs)
      longest = { fromEpochMs: from, untilEpochMs: until }
  }
  return longest
}
