import regularUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url'
import boldUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url'
import obliqueUrl from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Oblique.ttf?url'
import type { ReportDocument } from './document.ts'
import { writeHtml } from './html/write-html.ts'
import type { ReportFonts } from './pdf/typeface.ts'
import { type WrittenPdf, writePdf } from './pdf/write-pdf.ts'

export interface WrittenReport {
  readonly html: Uint8Array
  readonly pdf: WrittenPdf
}

/**
 * Writes a report's two files in the page. This module and its fonts are fetched when a report is made: import it
 * with `import()`.
 */
export async function writeReport(document: ReportDocument): Promise<WrittenReport> {
  const [regular, bold, oblique] = await Promise.all([regularUrl, boldUrl, obliqueUrl].map(fetchFont))
  const fonts = { regular, bold, oblique } as ReportFonts
  return { html: new TextEncoder().encode(writeHtml(document)), pdf: writePdf(document, fonts) }
}

async function fetchFont(url: string): Promise<Uint8Array> {
  const answer = await fetch(url)
  if (!answer.ok)
    throw new Error(`The font at ${url} could not be fetched: the server answered ${answer.status}.`)
  return new Uint8Array(await answer.arrayBuffer())
}
