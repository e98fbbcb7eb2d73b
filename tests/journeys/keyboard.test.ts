import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('by keyboard alone', () => {
  it('goes from the first skip link to the plan, a point, its record and back', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall)
    await page.keyboard.press('Tab')
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('To the plan')
    await page.keyboard.press('Enter')
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('Site plan')
    await page.keyboard.press('ArrowRight')
    await expect.poll(() => page.url()).toContain('selected=')
    const first = new URL(page.url()).searchParams.get('selected')
    await page.keyboard.press('ArrowDown')
    await expect.poll(() => new URL(page.url()).searchParams.get('selected')).not.toBe(first)
    await page.keyboard.press('Enter')
    await expect
      .poll(() => page.getByRole('tab', { name: 'Record' }).getAttribute('aria-selected'))
      .toBe('true')
    expect(faults).toEqual([])
    await close()
  })

  it('finds a row in the register and selects it', async () => {
    const { page, close } = await openSamplePage(browser, wall)
    await page.keyboard.press('r')
    await expect.poll(() => page.getByRole('grid').count()).toBe(1)
    await page.getByRole('searchbox').fill('PZ-05C')
    await expect.poll(() => page.getByRole('row').filter({ hasText: 'PZ-05C' }).count()).toBeGreaterThan(0)
    await page.keyboard.press('Tab')
    for (let tabs = 0; tabs < 12; tabs++) {
      if (
        await page.evaluate(
          () => document.activeElement?.closest('[role="grid"] tbody, [role="row"]') !== null,
        )
      )
        break
      await page.keyboard.press('Tab')
    }
    await page.keyboard.press('ArrowDown')
    await page.keyboard.press('Enter')
    await expect.poll(() => new URL(page.url()).searchParams.get('selected')).toContain('PZ-05C')
    await close()
  })

  it('steps the clock, and says so', async () => {
    const { page, close } = await openSamplePage(browser, wall)
    const clock = page.getByRole('slider', { name: 'Site clock' })
    const before = Number(await clock.inputValue())
    await page.keyboard.press('j')
    await expect.poll(async () => before - Number(await clock.inputValue())).toBe(86_400_000)
    await expect
      .poll(() =>
        page.evaluate(() =>
          [...document.querySelectorAll('[aria-live]')].map((one) => one.textContent).join(' '),
        ),
      )
      .toMatch(/Clock at/)
    await page.keyboard.press('p')
    await expect.poll(async () => Number(await clock.inputValue())).toBe(before)
    await close()
  })

  it('shows the sheet of keys on ? and leaves it on Escape', async () => {
    const { page, close } = await openSamplePage(browser, wall)
    await page.keyboard.press('?')
    await expect.poll(() => page.getByRole('dialog').isVisible()).toBe(true)
    await page.keyboard.press('Escape')
    await expect.poll(() => page.getByRole('dialog').isVisible()).toBe(false)
    await close()
  })
})
