import type { Receipt } from '#contract/receipt.ts'
import { fieldReadingsLayout } from './field-readings-layout.ts'
import type { KeptFileRequest } from './kept-file-request.ts'
import { readUnderLayout } from './read-under-layout.ts'
import { isSameLayout, repeatedReceipt } from './repeated-receipt.ts'

/** Takes the readings of a file that is kept already. Earlier batches of the same bytes are superseded by this one. */
export async function takeKept(request: KeptFileRequest): Promise<Receipt> {
  const { store, model, kept } = request
  const site = model.facts.id
  const declared = await store.listLayouts(site)
  const isBuiltIn = request.layoutId === fieldReadingsLayout.id
  const layouts = isBuiltIn ? [fieldReadingsLayout] : declared
  const whole = kept.known ? await store.findTaken(site, kept.sha256) : null
  if (whole && isSameLayout(whole, layouts, request.layoutId)) return repeatedReceipt(whole, request)
  const earlier = kept.known
    ? (await store.listBatches(site)).filter(({ sha256 }) => sha256 === kept.sha256)
    : []
  const receipt = await readUnderLayout(request, layouts)
  for (const { batch, outcome } of earlier) {
    if (receipt.outcome !== 'refused' || outcome === 'refused')
      await store.supersedeBatch(site, batch, receipt.batch)
  }
  return receipt
}
