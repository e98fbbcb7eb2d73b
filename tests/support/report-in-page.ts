// What a browser test runs in its page: the sample report and the writers, bundled as the page's own parts are.

import type { ReportFonts } from '../../web/report/pdf/typeface.ts'
import { writePdf } from '../../web/report/pdf/write-pdf.ts'
import { madeReport } from '../web/report/made-report.ts'

const fontOf = async (name: string) => new Uint8Array(await (await fetch(`/fonts/${name}`)).arrayBuffer())

/** The sample report's PDF in base 64. */
export async function composeInPage(): Promise<string> {
  const fonts: ReportFonts = {
    regular: await fontOf('regular'),
    bold: await fontOf('bold'),
    oblique: await fontOf('oblique'),
  }
  let text = ''
  for (const byte of writePdf(madeReport(), fonts).bytes) text += String.fromCharCode(byte)
  return btoa(text)
}
