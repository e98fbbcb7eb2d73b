import { standingVerdicts } from './standing-verdicts.ts'
import type { Verdict, VerdictWithdrawal } from './tables.ts'
import { effectsOf, type VerdictEffect } from './verdict-words.ts'

/** Something that a verdict asks for and that has not been seen to yet. */
export interface OpenEffect {
  readonly verdict: Verdict
  readonly effect: VerdictEffect
}

/**
 * What the verdicts known at an instant ask for: those that were taken back, or that later ones override everywhere, ask
 * for nothing. `doneAtEpochMs` gives instants of what sees to an effect; one after the verdict closes it. An effect
 * tells people; no level and no reading changes by it.
 */
export function openEffects(
  {
    verdicts,
    verdictWithdrawals,
  }: { readonly verdicts: readonly Verdict[]; readonly verdictWithdrawals: readonly VerdictWithdrawal[] },
  asOfEpochMs: number,
  doneAtEpochMs: (verdict: Verdict, effect: VerdictEffect) => readonly number[],
): readonly OpenEffect[] {
  const known = verdicts.filter(({ at }) => at <= asOfEpochMs)
  const holding = new Set(
    standingVerdicts(
      known,
      verdictWithdrawals.filter(({ at }) => at <= asOfEpochMs),
    ).map(({ id }) => id),
  )
  return known
    .filter(({ id }) => holding.has(id))
    .flatMap((verdict) =>
      effectsOf(verdict).flatMap((effect) => {
        const isDone = doneAtEpochMs(verdict, effect).some((at) => verdict.at < at && at <= asOfEpochMs)
        return isDone ? [] : [{ verdict, effect }]
      }),
    )
}
