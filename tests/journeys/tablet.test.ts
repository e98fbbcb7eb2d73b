import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import { openChromium } from '../support/open-chromium.ts'
import { pageRests } from '../support/page-rests.ts'
import { openSamplePage, sampleAddress, tablet } from '../support/sample-page.ts'
import { visit } from '../support/visit.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('by thumb on a tablet', () => {
  it('selects a point by a tap on the plan and shows its readings', async () => {
    const { points } = (await (
      await fetch(`${sampleAddress()}/api/sites/skarrow-quay`)
    ).json()) as SiteDocument
    const mark = points.find((point) => point.id === 'SP-31')
    // The plan opens with the mark in its middle.
    const view = `?site=skarrow-quay&view=${mark?.longitude},${mark?.latitude},20,0`
    const { page, faults, close } = await openSamplePage(browser, tablet, view)
    const plan = await page.getByRole('application', { name: 'Site plan' }).boundingBox()
    if (!plan) throw new Error('no plan')
    await page.touchscreen.tap(plan.x + plan.width / 2, plan.y + plan.height / 2)
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
    const { page, close } = await openSamplePage(browser, tablet)
    for (const query of [
      '',
      '?selected=point:PZ-01A&sheet=record',
      '?sheet=register',
      '?sheet=alerts',
      '?sheet=alerts&alerts=drills',
      '?sheet=section',
      '?sheet=imports',
    ]) {
      await visit(page, query)
      const sheet = new URLSearchParams(query).get('sheet')
      if (sheet) await page.locator(`#tab-${sheet}[aria-selected=true]`).waitFor()
      await pageRests(page)
      expect(await smallTargets(page), query).toEqual([])
    }
    await close()
  })

  it('shows a history at half height, under the cautions of the title and above those of the foot', async () => {
    const { page, close } = await openSamplePage(browser, tablet, '?selected=point:PZ-05C&sheet=history')
    await page.locator('.time-history .trace').first().waitFor({ timeout: 60_000 })
    const inSight = () =>
      page.evaluate(() => {
        const boxOf = (selector: string) => document.querySelector(selector)?.getBoundingClientRect()
        const [drawing, panel] = [boxOf('.time-history .view-drawing'), boxOf('.tab-panel')]
        if (!drawing || !panel) return 0
        return (Math.min(drawing.bottom, panel.bottom) - Math.max(drawing.top, panel.top)) / drawing.height
      })
    await expect.poll(inSight).toBeGreaterThan(0.99)
    for (const caution of ['.title-silent', '.title-watermark', '.cautions'])
      expect(await page.locator(caution).isVisible(), caution).toBe(true)
    // What is drawn of a mark with open alerts stands below them.
    await visit(page, '?selected=point:SP-31&sheet=history')
    await page.locator('.selected-alerts button').first().waitFor()
    await page.locator('.time-history .trace').first().waitFor({ timeout: 60_000 })
    await expect.poll(inSight).toBeGreaterThan(0.8)
    await close()
  })

  it('has nothing wider than the screen', async () => {
    const { page, close } = await openSamplePage(browser, tablet, '?selected=point:SP-31')
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(tablet.width)
    await close()
  })
})

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
