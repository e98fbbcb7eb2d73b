import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'

/** An element of a structure tree as the reader gives it. */
export interface ReadElement {
  readonly role: string
  readonly alt?: string
  readonly children: readonly (ReadElement | { readonly type: string; readonly id: string })[]
}

export const openPdfBytes = (bytes: Uint8Array): Promise<PDFDocumentProxy> =>
  getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise

/** Every text of a page in the order in which it is written, with its marked content: `artifact` or an id. */
export async function textsOfPage(pdf: PDFDocumentProxy, number: number) {
  const page = await pdf.getPage(number)
  const { items } = await page.getTextContent({ includeMarkedContent: true })
  const open: string[] = []
  const texts: { text: string; belongsTo: string | null; x: number; y: number; font: string }[] = []
  for (const item of items) {
    if ('str' in item) {
      if (item.str === '') continue
      texts.push({
        text: item.str,
        belongsTo: open.at(-1) ?? null,
        x: item.transform[4],
        y: item.transform[5],
        font: item.fontName,
      })
    } else if (item.type === 'endMarkedContent') open.pop()
    // Its types leave out the tag that it gives.
    else open.push(item.id ?? (item as { tag?: string }).tag ?? '')
  }
  return texts
}

export function elementsOf(element: ReadElement): ReadElement[] {
  return [element, ...element.children.flatMap((child) => ('role' in child ? elementsOf(child) : []))]
}
