import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { sampleAddress, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium({ withGl: false })
})
afterAll(() => browser.close())

describe('a device that cannot draw the plan', () => {
  it('says so, and the register and the readings stand without it', async () => {
    const page = await (await browser.newContext({ viewport: wall })).newPage()
    await page.goto(`${sampleAddress()}/?sheet=register`)
    expect(await page.evaluate(() => document.createElement('canvas').getContext('webgl2'))).toBeNull()
    await expect
      .poll(() => page.getByRole('main').textContent(), { timeout: 30_000 })
      .toMatch(/cannot draw the plan/)
    const row = page.getByRole('row').filter({ hasText: 'SP-31' })
    await expect.poll(() => row.count(), { timeout: 30_000 }).toBeGreaterThan(0)
    await row.first().click()
    await page.getByRole('tab', { name: 'Readings over time' }).click()
    await expect
      .poll(() => page.getByRole('tabpanel').locator('svg').count(), { timeout: 60_000 })
      .toBeGreaterThan(0)
    await page.context().close()
  })
})
