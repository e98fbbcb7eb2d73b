import { isKnownBy, latestReceiptMs } from '#domain/receipt/known-by.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { HistorySeries, HistoryTrace } from './history-props.ts'

/** `arrived-after`: in an approved stretch, received after the approval; `not-told`: what was received when is not known of it. */
export type RowApproval = 'approved' | 'provisional' | 'arrived-after' | 'not-told'

const bucketMs = { raw: 0, hour: 3_600_000, day: 86_400_000 } as const

/**
 * Whether somebody stands for a reading, or for all readings of an hour or day: only where they had arrived when it was
 * approved. Buckets do not say when their readings arrived, but whether any was late. Null: not told of this series.
 */
export function approvalOfRow(
  { approved, lateAfterMinutes }: HistorySeries,
  trace: HistoryTrace,
  row: number,
): RowApproval | null {
  if (!approved) return null
  const at = trace.atEpochMs[row] ?? Number.NaN
  const stretch = approved.find((one) => one.fromEpochMs <= at && at < one.untilEpochMs)
  if (!stretch) return 'provisional'
  if (trace.resolution === 'raw' && trace.receivedAfterSeconds) {
    const after = trace.receivedAfterSeconds[row] ?? Number.NaN
    if (isKnownBy(latestReceiptMs(at, after), stretch.approvedAtEpochMs)) return 'approved'
    return Number.isNaN(after) ? 'not-told' : 'arrived-after'
  }
  const isLate = ((trace.quality[row] ?? 0) & quality.receivedLate) !== 0
  const latestMs = at + bucketMs[trace.resolution] + (lateAfterMinutes ?? 0) * 60_000
  return !isLate && isKnownBy(latestMs, stretch.approvedAtEpochMs) ? 'approved' : 'not-told'
}

/** In words for a table or a readout. */
export const rowApprovalWords: Readonly<Record<RowApproval, string>> = {
  approved: 'approved',
  provisional: 'provisional',
  'arrived-after': 'provisional: arrived after the approval',
  'not-told': 'approved or provisional, by when it arrived: not told here',
}
