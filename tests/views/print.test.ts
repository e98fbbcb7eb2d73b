import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, tablet, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const at = '2027-07-20T12:00:00Z'

describe('a view on paper', () => {
  it.each([
    ['section', `?sheet=section&line=500060,309930+500060,310040&at=${at}`, wall, 'Chainage, m'],
    ['profile', `?sheet=profile&selected=instrument:PZ-05&at=${at}`, tablet, 'Depth, m'],
  ])('prints the %s with its date, cautions, mark, sentences and table', async (_, query, size, heading) => {
    const { page, close } = await openSamplePage(browser, size, query)
    await expect.poll(() => page.locator('.view-remarks li').count(), { timeout: 30_000 }).toBeGreaterThan(0)
    await page.emulateMedia({ media: 'print' })
    const table = page.locator('.view-table table').first()
    await expect.poll(() => table.isVisible()).toBe(true)
    expect(await table.textContent()).toContain(heading)
    for (const shown of ['.title-clock', '.cautions', '.print-mark', '.view-drawing', '.view-remarks'])
      expect(await page.locator(shown).first().isVisible(), shown).toBe(true)
    for (const hidden of ['#plan', '.clock-bar', '.tabs', '.sheet button'])
      expect(
        await page.locator(hidden).evaluateAll((found) => found.some((one) => one.checkVisibility())),
        hidden,
      ).toBe(false)
    expect(await page.locator('.title-clock').textContent()).toContain('20 Jul 2027 12:00')
    const paper = await page.pdf({ format: 'A4', landscape: true })
    const pages = paper.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0
    expect(pages).toBeGreaterThan(0)
    expect(pages).toBeLessThan(8)
    await page.emulateMedia({ media: 'screen' })
    await expect.poll(() => table.isVisible()).toBe(false)
    await close()
  })
})
