import { groupBy } from '../group-by.ts'
import { clockAt, clocksOf } from '../reduction/logger-clock.ts'
import type { LoggerClock } from '../site/tables.ts'
import type { CorrectionSignature } from './corrected-model.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ProposedCorrection } from './correction.ts'

type ClockCorrection = Extract<ProposedCorrection, { kind: 'clock' }>

/**
 * Clocks of loggers with one more version where a correction begins, and one that is as before again where it ends; none
 * there where another correction or record begins. Records within that only said again what held already would end it: each
 * has a version after it. No version is edited.
 */
export function correctedClocks(
  { loggerClocks }: Pick<CorrectedTables, 'loggerClocks'>,
  corrections: readonly ClockCorrection[],
  { author, reason }: CorrectionSignature,
): readonly LoggerClock[] {
  const made = [...loggerClocks]
  const settings = clocksOf(loggerClocks)
  for (const [logger, own] of groupBy(corrections, (one) => one.logger)) {
    const recorded = loggerClocks.filter((row) => row.logger === logger)
    const begins = new Set([
      ...recorded.map(({ validFrom }) => validFrom),
      ...own.map(({ fromEpochMs }) => fromEpochMs),
    ])
    let version = Math.max(0, ...recorded.map((row) => row.version))
    for (const { fromEpochMs, untilEpochMs, clock } of own.toSorted(
      (one, other) => one.fromEpochMs - other.fromEpochMs,
    )) {
      made.push({ logger, version: ++version, validFrom: fromEpochMs, ...clock, author, reason })
      const isWithin = (at: number) => at > fromEpochMs && at < (untilEpochMs ?? Number.POSITIVE_INFINITY)
      const within = new Set(recorded.map(({ validFrom }) => validFrom).filter(isWithin))
      for (const validFrom of [...within].toSorted((one, other) => one - other))
        made.push({
          logger,
          version: ++version,
          validFrom,
          ...clockAt([{ fromEpochMs, ...clock }], validFrom),
          author,
          reason: `Still so, in the time of the correction before it. ${reason}`,
        })
      if (untilEpochMs === null || begins.has(untilEpochMs)) continue
      made.push({
        logger,
        version: ++version,
        validFrom: untilEpochMs,
        ...clockAt(settings.get(logger) ?? [], untilEpochMs),
        author,
        reason: `As before again, after the correction before it. ${reason}`,
      })
    }
  }
  return made
}
