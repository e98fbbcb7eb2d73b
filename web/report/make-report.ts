import { composeReport } from './compose-report.ts'
import { writeHtml } from './html/write-html.ts'
import type { ReportFonts } from './pdf/typeface.ts'
import { writePdf } from './pdf/write-pdf.ts'
import type { ReportSources } from './report-sources.ts'

/** A report as it is given out: its files, and what a person should know of them. */
export interface MadeReport {
  readonly html: Uint8Array
  readonly pdf: Uint8Array
  readonly pages: number
  /** Characters that the fonts of the PDF do not have, as `U+4E2D`; they are printed by these names. */
  readonly notInFont: readonly string[]
}

/** Composes a report and writes both of its files; the same sources and fonts give the same bytes. */
export async function makeReport(sources: ReportSources, fonts: ReportFonts): Promise<MadeReport> {
  const document = await composeReport(sources)
  sources.onProgress?.('Writing the page …', 0.82)
  const html = new TextEncoder().encode(writeHtml(document))
  sources.onProgress?.('Writing the PDF …', 0.86)
  const { bytes, pages, notInFont } = writePdf(document, fonts)
  return { html, pdf: bytes, pages, notInFont: [...new Set(notInFont.map(({ codePoint }) => codePoint))] }
}
