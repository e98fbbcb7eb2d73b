import type { Series, SiteDocument } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { describe, tracesOf } from '#domain/review/case/case-of.ts'
import { foundIn, withoutStretches } from '#domain/review/case/found-in.ts'
import type { Trace } from '#domain/review/review-case.ts'
import type { Columns } from '../../engine/columns.ts'

/** Readings (or hourly means) of some series in a stretch, in the order asked for, those that were rejected left out. */
export function comparedTraces(
  site: Pick<SiteDocument, 'verdicts' | 'verdictWithdrawals'>,
  series: readonly Series[],
  columns: Columns,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
): readonly Trace[] {
  const read = tracesOf(columns)
  const rejected = groupBy(
    foundIn(site, fromEpochMs, asOfEpochMs).filter(({ verdict }) => verdict === 'rejected'),
    ({ series }) => series,
  )
  return series.map((one) => ({
    ...describe(one),
    ...withoutStretches(read.get(one.series) ?? { atEpochMs: [], values: [] }, rejected.get(one.id) ?? []),
  }))
}
