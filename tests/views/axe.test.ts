import { AxeBuilder } from '@axe-core/playwright'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, tablet, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const sheets = [
  'section&line=499950,309950+500100,309950',
  'profile',
  'history',
  'record',
  'register',
  'imports',
]

// axe-core checks the rules of WCAG 2.2 A and AA that a program can check.
describe('axe finds nothing', () => {
  it.each([
    ['wall', wall],
    ['tablet', tablet],
  ] as const)('on any sheet, %s', async (_name, size) => {
    const { page, close } = await openSamplePage(browser, size, '?selected=instrument:PZ-01')
    const found: string[] = []
    for (const sheet of sheets) {
      await page.goto(`${new URL(page.url()).origin}/?selected=instrument:PZ-01&sheet=${sheet}`)
      await expect
        .poll(() => page.getByRole('tabpanel').locator('svg, table, h3').count(), { timeout: 60_000 })
        .toBeGreaterThan(0)
      await page.waitForTimeout(800)
      const { violations } = await new AxeBuilder({ page }).setLegacyMode(true).analyze()
      for (const { id, nodes } of violations)
        for (const node of nodes)
          found.push(`${sheet}: ${id} ${node.target.join(' ')} ${node.html.slice(0, 90)}`)
    }
    expect(found).toEqual([])
    await close()
  })
})
