import type { Issue } from '../outcome.ts'
import { barometerAt } from '../reduction/barometer-in-force.ts'
import { showInstant } from '../site/site-readings.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ProposedCorrection } from './correction.ts'
import { barometerPeriodsOf } from './resolve-barometer.ts'
import { staleFault } from './resolve-corrections.ts'

/**
 * Why records are no longer what corrections of one proposal were proposed on; an issue's `column` is `changes.` and the
 * number of the correction. Empty: they are.
 */
export const staleCorrections = (
  model: CorrectedTables,
  corrections: readonly ProposedCorrection[],
): readonly Issue[] =>
  corrections.flatMap((one, number): Issue[] => {
    const fault = staleFault(model, one) ?? staleZero(model, one, corrections)
    return fault ? [{ ...fault, column: `changes.${number}`, value: one.series }] : []
  })

/** Why a zero is not that of the values any more: its readings were reduced by another barometer than these will be; null: it is. */
function staleZero(
  model: CorrectedTables,
  { series, fromEpochMs, zeroBarometer }: ProposedCorrection,
  corrections: readonly ProposedCorrection[],
): Pick<Issue, 'code' | 'message'> | null {
  const periods = zeroBarometer === undefined ? null : barometerPeriodsOf(model, series)
  if (periods === null) return null
  const proposed = corrections.find(
    (one) =>
      one.kind === 'barometer' &&
      one.series === series &&
      one.fromEpochMs <= fromEpochMs &&
      fromEpochMs < (one.untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  const { barometer, record } = barometerAt(periods, fromEpochMs)
  if ((proposed?.kind === 'barometer' ? proposed.barometer : barometer) === zeroBarometer) return null
  return {
    code: 'zero-by-another-barometer',
    message: `The zero of ${series} was taken by ${zeroBarometer}; since then it is on record as corrected by ${barometer ?? 'no barometer'} at ${showInstant(fromEpochMs)}${record ? ` (${record.author}: ${record.reason})` : ''}. Take it again on what is recorded now.`,
  }
}
