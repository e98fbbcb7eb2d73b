import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const telephone = { width: 390, height: 844, touch: true }
const panels = ['.title-block', '.plan', '.sheet', '.clock-bar', '.cautions']

/** What of the main panels and the controls on them lies on another, under another, or beyond the screen. */
const faultsOf = (page: Page) =>
  page.evaluate((names) => {
    const found: string[] = []
    const boxes = names.flatMap((name) => {
      const element = document.querySelector(name)
      const seen = element?.checkVisibility({ visibilityProperty: true })
      return element && seen ? [{ name, box: element.getBoundingClientRect() }] : []
    })
    const overlap = (one: DOMRect, other: DOMRect) =>
      Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1 &&
      Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1
    for (const { name, box } of boxes) {
      if (box.left < -1 || box.right > innerWidth + 1 || box.top < -1 || box.bottom > innerHeight + 1)
        found.push(`${name} lies beyond the screen`)
      if (box.height < 40) found.push(`${name} is ${Math.round(box.height)} px high`)
    }
    boxes.forEach((one, at) => {
      for (const other of boxes.slice(at + 1))
        if (overlap(one.box, other.box)) found.push(`${one.name} lies on ${other.name}`)
    })
    if (document.documentElement.scrollWidth > innerWidth)
      found.push(`the page is ${document.documentElement.scrollWidth} wide`)
    const controls = document.querySelectorAll(
      '.title-block > button, .title-settings > summary, .plan-key > summary, .plan-buttons button, .sheet-heights button, .clock-bar :is(button, select, input):not(.diary *)',
    )
    for (const control of controls) {
      if (!control.checkVisibility({ visibilityProperty: true })) continue
      const { left, top, width, height } = control.getBoundingClientRect()
      const said = control.getAttribute('aria-label') ?? control.textContent
      if (width < 43.5 || height < 43.5) found.push(`${said} is ${Math.round(width)} × ${Math.round(height)}`)
      const atMiddle = document.elementFromPoint(left + width / 2, top + height / 2)
      if (!control.contains(atMiddle)) found.push(`${said} lies beneath ${atMiddle?.className ?? 'nothing'}`)
    }
    return found
  }, panels)

describe('in the hand, 390 by 844', () => {
  it('nothing lies on another thing, and the clock is within reach, however high the sheet', async () => {
    const { page, faults, close } = await openSamplePage(
      browser,
      telephone,
      '?selected=point:SP-31&sheet=history',
    )
    const raise = (name: string) => page.locator('.sheet-heights').getByText(name).click()
    for (const height of ['Half', 'Full', 'Lower']) {
      await raise(height)
      await page.waitForTimeout(300)
      expect(await faultsOf(page), height).toEqual([])
      expect(await page.locator('.plan').isVisible(), `plan, ${height}`).toBe(height !== 'Full')
    }
    const more = page.getByRole('button', { name: 'Date, diary and how values count' })
    await more.click()
    await page.getByRole('button', { name: 'Diary', exact: true }).waitFor()
    expect(await faultsOf(page), 'all of the clock').toEqual([])
    await more.click()
    expect(faults).toEqual([])
    await close()
  }, 120_000)

  it('every tab of the sheet is reached, its content by scrolling the sheet and nothing sideways', async () => {
    const { page, close } = await openSamplePage(
      browser,
      telephone,
      '?selected=instrument:IP-02&sheet=profile',
    )
    for (const name of ['Depth profile', 'Record', 'Alerts', 'Register']) {
      const tab = page.getByRole('tab', { name: new RegExp(`^${name}`) })
      await tab.click()
      await expect.poll(() => tab.getAttribute('aria-selected')).toBe('true')
      await page.waitForTimeout(500)
      const { seen, wide, high } = await page.evaluate(() => {
        const open = document.querySelector('.tabs [aria-selected="true"]')?.getBoundingClientRect()
        const panel = document.querySelector('.tab-panel')
        return {
          seen: open !== undefined && open.left > -1 && open.right < innerWidth + 1,
          wide: document.documentElement.scrollWidth,
          high: panel?.getBoundingClientRect().height ?? 0,
        }
      })
      expect(seen, `${name} in sight`).toBe(true)
      expect(wide, name).toBeLessThanOrEqual(telephone.width)
      expect(high, name).toBeGreaterThan(250)
      expect(await faultsOf(page), name).toEqual([])
    }
    await close()
  }, 120_000)
})
