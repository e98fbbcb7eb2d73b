import type { ApprovedStretch } from '../approval/approved-stretches.ts'
import { isKnownBy, latestReceiptMs } from '../receipt/known-by.ts'
import type { ChannelReadings } from './channel-completeness.ts'

/**
 * Readings of a stretch (from inclusive, until exclusive), and how many of them nobody stands for: outside every
 * approved stretch, or received after the approval. Of one that came within a quarter of an hour of the approval it is
 * not told which it was, and it counts as provisional.
 */
export function provisionalReadings(
  { atEpochMs, receivedAfterSeconds }: Omit<ChannelReadings, 'value'>,
  approved: readonly ApprovedStretch[],
  { fromEpochMs, untilEpochMs }: { readonly fromEpochMs: number; readonly untilEpochMs: number },
): { readonly all: number; readonly provisional: number } {
  let all = 0
  let provisional = 0
  for (let row = 0; row < atEpochMs.length; row++) {
    const at = atEpochMs[row] as number
    if (at < fromEpochMs || at >= untilEpochMs) continue
    all++
    const stretch = approved.find((one) => one.fromEpochMs <= at && at < one.untilEpochMs)
    const receivedAt = latestReceiptMs(at, receivedAfterSeconds[row] as number)
    if (!stretch || !isKnownBy(receivedAt, stretch.approvedAtEpochMs)) provisional++
  }
  return { all, provisional }
}
