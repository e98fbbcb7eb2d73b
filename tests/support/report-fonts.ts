import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { ReportFonts } from '../../web/report/pdf/typeface.ts'

const require = createRequire(import.meta.url)
const bytesOf = (name: string) =>
  new Uint8Array(readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)))

/** The fonts that reports are written with, as the page fetches them. */
export const reportFonts = (): ReportFonts => ({
  regular: bytesOf('DejaVuSansCondensed'),
  bold: bytesOf('DejaVuSansCondensed-Bold'),
  oblique: bytesOf('DejaVuSansCondensed-Oblique'),
})
