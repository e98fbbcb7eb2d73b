// What a browser test runs in its page: the sample report and the writers, bundled as the page's own parts are.
import { writeReport } from '../../web/report/write-report.ts'
import { madeReport } from '../web/report/made-report.ts'

/** The sample report's PDF in base 64. */
export async function composeInPage(): Promise<string> {
  const { pdf } = await writeReport(madeReport())
  let text = ''
  for (const byte of pdf.bytes) text += String.fromCharCode(byte)
  return btoa(text)
}
