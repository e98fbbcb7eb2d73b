import type { Issue } from '#domain/outcome.ts'
import { showInstant } from '#domain/site/site-readings.ts'

/** Why nothing can be frozen by a cut-off; empty: it can. `firstReceiptEpochMs` null: no reading was ever received. */
export function cutOffFaults(
  cutOffEpochMs: number,
  presentEpochMs: number,
  firstReceiptEpochMs: number | null,
): readonly Issue[] {
  const value = showInstant(cutOffEpochMs)
  if (firstReceiptEpochMs === null)
    return [
      {
        code: 'no-readings',
        column: 'cutOffEpochMs',
        value,
        message: 'No reading has been received at this site yet, so there is nothing to freeze.',
      },
    ]
  if (cutOffEpochMs > presentEpochMs)
    return [
      {
        code: 'cut-off-ahead',
        column: 'cutOffEpochMs',
        value,
        expected: `at most ${showInstant(presentEpochMs)}`,
        message: `The cut-off ${value} lies after the present of the site, ${showInstant(presentEpochMs)}: what will be received by then is not known. Choose an earlier one.`,
      },
    ]
  if (cutOffEpochMs < firstReceiptEpochMs)
    return [
      {
        code: 'cut-off-before-readings',
        column: 'cutOffEpochMs',
        value,
        expected: `at least ${showInstant(firstReceiptEpochMs)}`,
        message: `By ${value} no reading had been received; the first came at ${showInstant(firstReceiptEpochMs)}. Choose a later cut-off.`,
      },
    ]
  return []
}
