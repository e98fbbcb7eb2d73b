import { standingVerdicts } from '../site/standing-verdicts.ts'
import type { Verdict, VerdictWithdrawal } from '../site/tables.ts'

/** Verdicts that were known at an instant and held somewhere then, as they were written; of a series where one is given. */
export function heldVerdicts(
  {
    verdicts,
    verdictWithdrawals,
  }: { readonly verdicts: readonly Verdict[]; readonly verdictWithdrawals: readonly VerdictWithdrawal[] },
  atEpochMs: number,
  ofSeries?: string,
): readonly Verdict[] {
  const known = verdicts.filter(({ at }) => at <= atEpochMs)
  const withdrawals = verdictWithdrawals.filter(({ at }) => at <= atEpochMs)
  const holding = new Set(standingVerdicts(known, withdrawals).map(({ id }) => id))
  return known.filter(({ id, series }) => holding.has(id) && (ofSeries === undefined || ofSeries === series))
}
