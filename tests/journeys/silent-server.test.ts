import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, tablet } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('a page that is left without its server', () => {
  it('says so over everything, and takes it back when the server answers again', async () => {
    const { page, close } = await openSamplePage(browser, tablet)
    const banner = page.getByText(/No answer from the server since/)
    expect(await banner.count()).toBe(0)
    await page.context().setOffline(true)
    await expect.poll(() => banner.isVisible(), { timeout: 15_000 }).toBe(true)
    expect(await banner.textContent()).toMatch(/neither readings, nor levels, nor silence/)
    await page.context().setOffline(false)
    await expect.poll(() => banner.count(), { timeout: 15_000 }).toBe(0)
    await close()
  })
})
