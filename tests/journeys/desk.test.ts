import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('at the desk', () => {
  it('opens on the plan with every state in words, the watermark and the cautions', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall)
    await expect.poll(() => page.getByRole('heading', { name: 'Skarrow Quay' }).isVisible()).toBe(true)
    expect(await page.getByText('invented data', { exact: false }).first().isVisible()).toBe(true)
    const foot = page.getByText(/Readings are provisional until approved/)
    expect(await foot.textContent()).toMatch(/No alert does not mean no movement: \d+ of \d+ series/)
    expect(await foot.textContent()).toMatch(/does not replace the judgement of the responsible engineer/)
    expect(await page.getByText(/\b(safe|OK|normal)\b/).count()).toBe(0)
    expect(faults).toEqual([])
    await close()
  })

  it('leads a pore pressure back to hertz, ohms and the barometer', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      '?site=skarrow-quay&selected=point:PZ-01A&sheet=record&at=2027-06-01T06:00:00Z',
    )
    const trail = page.getByRole('region', { name: /How this was computed/ })
    await expect.poll(() => trail.textContent(), { timeout: 30_000 }).toContain('Hz')
    const told = (await trail.textContent()) ?? ''
    const [, periodText = '', hertzText = ''] = /1 000 000 \/ ([\d.]+) = ([\d\s.]+) Hz/.exec(told) ?? []
    expect(1e6 / Number(periodText)).toBeCloseTo(Number(hertzText.replaceAll(/\s/g, '')), 3)
    expect(told).toContain('Thermistor')
    expect(told).toContain('Air pressure')
    expect(told).toContain('Piezometric level')
    await close()
  })

  it('shows readings, a section and a profile of what is selected, and a link shows the same', async () => {
    const { page, faults, close } = await openSamplePage(
      browser,
      wall,
      '?site=skarrow-quay&selected=point:PZ-05C',
    )
    await page.getByRole('tab', { name: 'Readings over time' }).click()
    await expect
      .poll(() => page.getByRole('tabpanel').locator('svg, canvas').count(), { timeout: 60_000 })
      .toBeGreaterThan(0)
    await page.getByRole('tab', { name: 'Depth profile' }).click()
    await expect.poll(() => page.getByRole('tabpanel').textContent(), { timeout: 60_000 }).toContain('kPa')
    await expect.poll(() => page.url()).toContain('sheet=profile')
    const link = page.url()
    expect(link).toContain('selected=point%3APZ-05C')
    const again = await openSamplePage(browser, wall, new URL(link).search)
    expect(await again.page.getByRole('heading', { name: /^PZ-05C/ }).isVisible()).toBe(true)
    expect(await again.page.getByRole('tab', { name: 'Depth profile' }).getAttribute('aria-selected')).toBe(
      'true',
    )
    await again.close()
    await page.goBack()
    await expect
      .poll(() => page.getByRole('tab', { name: 'Readings over time' }).getAttribute('aria-selected'))
      .toBe('true')
    expect(faults).toEqual([])
    await close()
  })
})
