import { composeReport } from './compose-report.ts'
import type { ReportDocument } from './document.ts'
import type { ReportSources } from './report-sources.ts'
import type { WrittenReport } from './write-report.ts'

/** A report as it is given out: its files, and what a person should know of them. */
export interface MadeReport {
  readonly html: Uint8Array
  readonly pdf: Uint8Array
  readonly pages: number
  /** Characters that the fonts of the PDF do not have, as `U+4E2D`; they are printed by these names. */
  readonly notInFont: readonly string[]
}

/** Composes a report and writes both of its files; the same sources and fonts give the same bytes. */
export async function makeReport(
  sources: ReportSources,
  write: (document: ReportDocument) => Promise<WrittenReport>,
): Promise<MadeReport> {
  const document = await composeReport(sources)
  sources.onProgress?.('Writing page and PDF …', 0.85)
  const { html, pdf } = await write(document)
  return {
    html,
    pdf: pdf.bytes,
    pages: pdf.pages,
    notInFont: [...new Set(pdf.notInFont.map(({ codePoint }) => codePoint))],
  }
}
