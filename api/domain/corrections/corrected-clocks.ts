import { groupBy } from '../group-by.ts'
import { clockAt, clocksOf } from '../reduction/logger-clock.ts'
import type { LoggerClock } from '../site/tables.ts'
import type { CorrectionSignature } from './corrected-model.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ProposedCorrection } from './correction.ts'
import { datedVersions } from './dated-versions.ts'

type ClockCorrection = Extract<ProposedCorrection, { kind: 'clock' }>

/** Clocks of loggers with the versions by which corrections hold in their time (`datedVersions`). No version is edited. */
export function correctedClocks(
  { loggerClocks }: Pick<CorrectedTables, 'loggerClocks'>,
  corrections: readonly ClockCorrection[],
  { author, reason }: CorrectionSignature,
): readonly LoggerClock[] {
  const settings = clocksOf(loggerClocks)
  const added = [...groupBy(corrections, ({ logger }) => logger)].flatMap(([logger, own]) => {
    const recorded = loggerClocks.filter((row) => row.logger === logger)
    const last = Math.max(0, ...recorded.map(({ version }) => version))
    return datedVersions(recorded, own).map(({ as, validFrom, correction }, at): LoggerClock => {
      const { fromEpochMs, clock } = correction
      const held = as === 'again' ? (settings.get(logger) ?? []) : [{ fromEpochMs, ...clock }]
      const why = {
        begun: reason,
        still: `Still so, in the time of the correction before it. ${reason}`,
        again: `As before again, after the correction before it. ${reason}`,
      }[as]
      return { logger, version: last + at + 1, validFrom, ...clockAt(held, validFrom), author, reason: why }
    })
  })
  return [...loggerClocks, ...added]
}
