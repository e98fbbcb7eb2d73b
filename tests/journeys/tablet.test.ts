import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, tablet } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('by thumb on a tablet', () => {
  it('selects a point by a tap on the plan and shows its readings', async () => {
    const { page, faults, close } = await openSamplePage(
      browser,
      tablet,
      '?site=skarrow-quay&view=-30,48,19,0',
    )
    const at = await placeOf(page, 'SP-31')
    await page.touchscreen.tap(at.x, at.y)
    await expect.poll(() => page.getByRole('heading', { name: /^SP-31/ }).isVisible()).toBe(true)
    await expect.poll(() => page.url()).toContain('selected=')
    await page.getByRole('tab', { name: 'Readings over time' }).tap()
    await expect
      .poll(() => page.getByRole('tabpanel').locator('svg, canvas').count(), { timeout: 60_000 })
      .toBeGreaterThan(0)
    expect(faults).toEqual([])
    await close()
  })

  it('scrubs and plays the clock', async () => {
    const { page, close } = await openSamplePage(browser, tablet)
    const clock = page.getByRole('slider', { name: 'Site clock' })
    const before = await clock.inputValue()
    await page.getByRole('button', { name: 'One step back' }).tap()
    await expect.poll(async () => Number(before) - Number(await clock.inputValue())).toBe(86_400_000)
    await page.getByRole('button', { name: 'Present' }).tap()
    await expect.poll(() => clock.inputValue()).toBe(before)
    await close()
  })

  it('gives every control at least 44 by 44 pixels (WCAG 2.2, 2.5.5)', async () => {
    for (const query of [
      '',
      '?selected=point:PZ-01A&sheet=record',
      '?sheet=register',
      '?sheet=section',
      '?sheet=imports',
    ]) {
      const { page, close } = await openSamplePage(browser, tablet, query)
      await page.waitForTimeout(1500)
      expect(await smallTargets(page), query).toEqual([])
      await close()
    }
  })

  it('has nothing wider than the screen', async () => {
    const { page, close } = await openSamplePage(browser, tablet, '?selected=point:SP-31')
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(tablet.width)
    await close()
  })
})

/** Where a named point lies on the screen, found as a person would: by the register and the map's answer. */
async function placeOf(page: Page, name: string): Promise<{ x: number; y: number }> {
  const map = page.getByRole('application', { name: 'Site plan' })
  const box = await map.boundingBox()
  if (!box) throw new Error('no plan')
  for (let row = 0.3; row < 0.98; row += 0.03)
    for (let column = 0.1; column < 0.9; column += 0.05) {
      const at = { x: box.x + box.width * column, y: box.y + box.height * row }
      await page.touchscreen.tap(at.x, at.y)
      await page.waitForTimeout(15)
      if (await page.getByRole('heading', { name: new RegExp(`^${name}\\b`) }).isVisible()) {
        await page.getByRole('button', { name: 'Select nothing' }).tap()
        return at
      }
    }
  throw new Error(`${name} was found nowhere on the plan`)
}

/** Visible controls smaller than 44 px either way, with what they say; a label counts as part of its control. */
function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const controls = [
      ...document.querySelectorAll<HTMLElement>('button, summary, select, input, a[href], [role="tab"]'),
    ]
    return controls.flatMap((control) => {
      const label = control.closest('label') ?? document.querySelector(`label[for="${control.id || 'none'}"]`)
      const boxes = [control, label].flatMap((one) => (one ? [one.getBoundingClientRect()] : []))
      const visible = control.checkVisibility({ visibilityProperty: true, opacityProperty: true })
      const [width, height] = [
        Math.max(...boxes.map((b) => b.width)),
        Math.max(...boxes.map((b) => b.height)),
      ]
      const onScreen = boxes.some((b) => b.width > 1 && b.bottom > 0 && b.top < innerHeight)
      if (!visible || !onScreen || (width >= 43.5 && height >= 43.5)) return []
      return [
        `${control.tagName} "${(control.ariaLabel ?? control.textContent ?? '').trim().slice(0, 40)}" ${width}×${height}`,
      ]
    })
  })
}
