import type { SiteDocument } from '#contract/site-document.ts'
import { readAddress } from '../state/address.ts'

/** What the code of an instrument's label says: the address that opens it, so that any reader of codes finds the page. */
export const labelText = (origin: string, site: string, instrument: string): string =>
  `${origin}/?${new URLSearchParams({ site, selected: `instrument:${instrument}` })}`

/** What a scanned code means at the open site: an instrument of it, or a sentence why not. */
export type ScannedLabel =
  | { readonly instrument: string }
  | { readonly instrument: null; readonly sentence: string }

/** Reads a scanned code. The server's name in it does not matter: it may have moved since the label was printed. */
export function readLabel(text: string, document: Pick<SiteDocument, 'facts' | 'instruments'>): ScannedLabel {
  const refuse = (sentence: string): ScannedLabel => ({ instrument: null, sentence })
  const query = URL.canParse(text) ? new URL(text).search : ''
  const address = readAddress(query)
  const { selection } = address
  if (address.site === null || selection.kind === 'nothing')
    return refuse('This code is no label of an instrument. Look for the label on the instrument’s cover.')
  if (address.site !== document.facts.id)
    return refuse(
      `This label belongs to another site, "${address.site}"; open here is "${document.facts.id}". Nothing was opened.`,
    )
  const wanted = selection.kind === 'instrument' ? selection.instrument : selection.point
  const found = document.instruments.find(({ id, points }) => id === wanted || points.includes(wanted))
  return found
    ? { instrument: found.id }
    : refuse(
        `The label says ${wanted}, which this site does not have. It may be of an earlier name: ask who printed it.`,
      )
}
