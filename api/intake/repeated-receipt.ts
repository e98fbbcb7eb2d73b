import type { Layout } from '#contract/layout.ts'
import type { Receipt } from '#contract/receipt.ts'
import type { KeptFileRequest } from './kept-file-request.ts'

/** Whether bytes that are taken whole were taken under the layout now asked for, in its version of today. */
export function isSameLayout(
  whole: Receipt,
  layouts: readonly Layout[],
  layoutId: string | undefined,
): boolean {
  if (layoutId === undefined) return true
  const asked = layouts.find(({ id }) => id === layoutId)
  return whole.layout === layoutId && whole.layoutVersion === asked?.version
}

/** The receipt for bytes that are all taken already: nothing is read again, and it says so. */
export function repeatedReceipt(
  whole: Receipt,
  { fileName, from, receivedAtEpochMs }: KeptFileRequest,
): Receipt {
  return {
    ...whole,
    fileName,
    from,
    receivedAtEpochMs,
    accepted: 0,
    repeated: whole.accepted + whole.repeated + whole.conflicting,
    conflicting: 0,
    message: `The same bytes were taken before, as "${whole.fileName}" in batch ${whole.batch}: there is nothing new in them.`,
  }
}
