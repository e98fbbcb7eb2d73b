import type { Verdict, VerdictWithdrawal } from './tables.ts'

/**
 * The verdicts that hold, each cut to where it does: one that was taken back holds nowhere, and where two of one series
 * overlap the one found later holds (of two found at once, the one entered later). One that a shorter, later verdict
 * lies within comes back in two pieces. In order of the verdicts given; from inclusive, until exclusive.
 */
export function standingVerdicts(
  verdicts: readonly Verdict[],
  withdrawals: readonly Pick<VerdictWithdrawal, 'verdict'>[],
): readonly Verdict[] {
  const withdrawn = new Set(withdrawals.map(({ verdict }) => verdict))
  const kept = verdicts.filter(({ id }) => !withdrawn.has(id))
  return kept.flatMap((verdict, place) => {
    const later = kept.filter(
      (other, at) =>
        other.series === verdict.series && (other.at > verdict.at || (other.at === verdict.at && at > place)),
    )
    return later.reduce<readonly Verdict[]>(
      (pieces, over) => pieces.flatMap((one) => without(one, over)),
      [verdict],
    )
  })
}

/** What is left of a verdict outside the stretch of another. */
function without(one: Verdict, over: Verdict): readonly Verdict[] {
  const end = one.untilAt ?? Number.POSITIVE_INFINITY
  const overEnd = over.untilAt ?? Number.POSITIVE_INFINITY
  if (over.fromAt >= end || overEnd <= one.fromAt) return [one]
  return [
    ...(over.fromAt > one.fromAt ? [{ ...one, untilAt: over.fromAt }] : []),
    ...(overEnd < end ? [{ ...one, fromAt: overEnd }] : []),
  ]
}
