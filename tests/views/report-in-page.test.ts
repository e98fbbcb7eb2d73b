import { createHash } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, Page } from 'playwright-core'
import { build } from 'vite'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { writeHtml } from '../../web/report/html/write-html.ts'
import { writePdf } from '../../web/report/pdf/write-pdf.ts'
import { openChromium } from '../support/open-chromium.ts'
import { reportFonts } from '../support/report-fonts.ts'
import { madeReport } from '../web/report/made-report.ts'

// A place of its own: nothing is asked of any server.
const place = 'http://report.test'
const fonts = reportFonts()
let browser: Browser
let page: Page

async function bundled(): Promise<string> {
  const made = await build({
    configFile: false,
    logLevel: 'error',
    root: fileURLToPath(new URL('../..', import.meta.url)),
    build: {
      write: false,
      minify: false,
      lib: {
        entry: fileURLToPath(new URL('../support/report-in-page.ts', import.meta.url)),
        formats: ['es'],
      },
    },
  })
  const [first] = Array.isArray(made) ? made : [made]
  const chunk = first && 'output' in first ? first.output[0] : undefined
  if (chunk?.type !== 'chunk') throw new Error('The report was not bundled.')
  return chunk.code
}

beforeAll(async () => {
  const code = await bundled()
  browser = await openChromium()
  page = await (await browser.newContext()).newPage()
  await page.route(`${place}/**`, (route) => {
    const path = new URL(route.request().url()).pathname
    if (path === '/report.js') return route.fulfill({ contentType: 'text/javascript', body: code })
    if (path === '/report.html')
      return route.fulfill({ contentType: 'text/html', body: writeHtml(madeReport()) })
    return route.fulfill({ contentType: 'text/html', body: '<!DOCTYPE html><title>Report</title>' })
  })
})
afterAll(() => browser.close())

it('a report composed in the page is the same bytes as in Node', async () => {
  await page.goto(`${place}/`)
  // As text: what the test runner makes of import() is not for a page.
  const inPage = await page.evaluate<string>(
    `import('${place}/report.js').then((made) => made.composeInPage())`,
  )
  const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
  expect(hash(Buffer.from(inPage, 'base64'))).toBe(hash(writePdf(madeReport(), fonts).bytes))
})

// axe-core checks the rules of WCAG 2.2 A and AA that a program can check.
it.each([
  ['desk', 1280],
  ['telephone', 390],
])('axe finds nothing in the page of a report: %s', async (_, width) => {
  await page.setViewportSize({ width, height: 900 })
  await page.goto(`${place}/report.html`)
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
})
