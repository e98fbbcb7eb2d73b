import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import type { Verdict, VerdictWithdrawal } from '#domain/site/tables.ts'
import { formatInstant } from '../ui/format-instant.ts'

/** A verdict with whether it holds, in words. */
export interface ListedVerdict {
  readonly verdict: Verdict
  readonly withdrawn: boolean
  readonly sentence: string
}

/** The verdicts on a series, the one found last first. */
export function listedVerdicts(
  series: string,
  verdicts: readonly Verdict[],
  withdrawals: readonly VerdictWithdrawal[],
  timeZone: string,
): readonly ListedVerdict[] {
  const own = verdicts.filter((verdict) => verdict.series === series)
  const standing = standingVerdicts(own, withdrawals)
  return own
    .map((verdict, place) => ({ verdict, place }))
    .sort((one, other) => other.verdict.at - one.verdict.at || other.place - one.place)
    .map(({ verdict }): ListedVerdict => {
      const taken = withdrawals.find((one) => one.verdict === verdict.id)
      if (taken)
        return {
          verdict,
          withdrawn: true,
          sentence: `Withdrawn by ${taken.author} on ${formatInstant(taken.at, timeZone)}: ${taken.reason}`,
        }
      const pieces = standing.filter(({ id }) => id === verdict.id)
      const [first] = pieces
      const whole =
        pieces.length === 1 && first?.fromAt === verdict.fromAt && first.untilAt === verdict.untilAt
      return {
        verdict,
        withdrawn: false,
        sentence: whole
          ? 'Holds'
          : pieces.length === 0
            ? 'Holds nowhere: a later verdict holds in its place'
            : 'Holds in part: a later verdict holds for the rest',
      }
    })
}
