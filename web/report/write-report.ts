import regularUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url'
import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url'
import obliqueUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Oblique.ttf?url'
import type { ReportDocument } from './document.ts'
import { writeHtml } from './html/write-html.ts'
import type { ReportFonts } from './pdf/typeface.ts'
import { type WrittenPdf, writePdfSteps } from './pdf/write-pdf.ts'

export interface WrittenReport {
  readonly html: Uint8Array
  readonly pdf: WrittenPdf
}

interface Watch {
  /** Told the share of the pages that are written, 0 to 1. */
  readonly onProgress?: (share: number) => void
  readonly signal?: AbortSignal
}

/**
 * Writes a report's two files in the page, which stays awake between the pages of the PDF. This module and its fonts are
 * fetched when a report is made: import it with `import()`. Rejects when a font cannot be fetched or the signal is given.
 */
export async function writeReport(
  document: ReportDocument,
  { onProgress, signal }: Watch = {},
): Promise<WrittenReport> {
  const [regular, bold, oblique] = await Promise.all([regularUrl, boldUrl, obliqueUrl].map(fetchFont))
  const html = new TextEncoder().encode(writeHtml(document))
  const steps = writePdfSteps(document, { regular, bold, oblique } as ReportFonts)
  for (;;) {
    const step = steps.next()
    if (step.done) return { html, pdf: step.value }
    onProgress?.(step.value)
    await new Promise((resolve) => setTimeout(resolve))
    signal?.throwIfAborted()
  }
}

async function fetchFont(url: string): Promise<Uint8Array> {
  const answer = await fetch(url)
  if (!answer.ok)
    throw new Error(`The font at ${url} could not be fetched: the server answered ${answer.status}.`)
  return new Uint8Array(await answer.arrayBuffer())
}
