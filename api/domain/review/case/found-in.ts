import { standingVerdicts } from '../../site/standing-verdicts.ts'
import type { FoundBeside } from '../review-case.ts'
import type { ReviewedSite } from './reviewed-site.ts'

/** A verdict that was known at the instant and holds in some of the stretch, accepted ones left out. */
interface Found extends FoundBeside {
  readonly untilEpochMs: number
}

/** What people had found by an instant about readings of a stretch before it. */
export const foundIn = (
  { verdicts, verdictWithdrawals }: Pick<ReviewedSite, 'verdicts' | 'verdictWithdrawals'>,
  fromEpochMs: number,
  asOfEpochMs: number,
): readonly Found[] =>
  standingVerdicts(
    verdicts.filter(({ at }) => at <= asOfEpochMs),
    verdictWithdrawals.filter(({ at }) => at <= asOfEpochMs),
  ).flatMap(({ series, verdict, fromAt, untilAt, author }) => {
    const untilEpochMs = untilAt ?? Number.POSITIVE_INFINITY
    if (verdict === 'accepted' || fromAt >= asOfEpochMs || untilEpochMs <= fromEpochMs) return []
    return [{ series, verdict, author, fromEpochMs: fromAt, untilEpochMs }]
  })

/** Readings less those of some stretches. */
export function withoutStretches(
  trace: { readonly atEpochMs: readonly number[]; readonly values: readonly number[] },
  stretches: readonly Pick<Found, 'fromEpochMs' | 'untilEpochMs'>[],
): { readonly atEpochMs: readonly number[]; readonly values: readonly number[] } {
  if (stretches.length === 0) return trace
  const kept = trace.atEpochMs.flatMap((at, row) =>
    stretches.some(({ fromEpochMs, untilEpochMs }) => fromEpochMs <= at && at < untilEpochMs) ? [] : [row],
  )
  return {
    atEpochMs: kept.map((row) => trace.atEpochMs[row] as number),
    values: kept.map((row) => trace.values[row] as number),
  }
}
