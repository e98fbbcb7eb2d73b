import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

// The demo's own truth is in sample-site/truth; what is checked here is that a person can see it.
let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const panelOf = (page: Page) => page.getByRole('tabpanel')

/** Opens the table that stands beside a picture and returns its text. */
async function tableOf(page: Page): Promise<string> {
  await page.getByText('The same as a table').click()
  await expect.poll(() => panelOf(page).locator('table').last().textContent()).toMatch(/\d/)
  return (await panelOf(page).locator('table').last().textContent()) ?? ''
}

describe('what was planted can be seen', () => {
  it('the drifting piezometer passes its hold point, which is drawn and named', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      '?selected=point:PZ-05C/pore-pressure&sheet=history&at=2027-07-12T00:00:00Z',
    )
    await expect
      .poll(() => panelOf(page).textContent(), { timeout: 60_000 })
      .toMatch(/mean of a week at most 121\.6 kPa/)
    const value = /([\d.]+) kPa/.exec((await page.getByRole('complementary').textContent()) ?? '')?.[1]
    expect(Number(value)).toBeLessThan(123)
    await close()
  })

  it('the leaking drain makes a bowl at SP-31 that its neighbours do not share', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      '?sheet=register&find=SP-3&at=2027-08-20T12:00:00Z',
    )
    const settlement = async (point: string) => {
      const row = page.getByRole('row').filter({ hasText: new RegExp(`${point}Settlement`) })
      await expect.poll(() => row.count(), { timeout: 60_000 }).toBe(1)
      return Number(/Settlement([\d.]+) mm/.exec((await row.textContent()) ?? '')?.[1])
    }
    expect(await settlement('SP-31')).toBeGreaterThan(15)
    expect(await settlement('SP-34')).toBeLessThan(9)
    await close()
  })

  it('the contours show the bowl and say how they were made and what was left out', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      '?layers=works+labels+contours&at=2027-08-20T12:00:00Z',
    )
    await expect
      .poll(() => page.getByRole('main').textContent(), { timeout: 60_000 })
      .toMatch(/\d+ (points|marks|of \d+).*(left out|used)/i)
    await close()
  })

  it('the silence of LG-19 is drawn as received late', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      '?selected=point:ST-06/force&sheet=history&at=2027-08-20T12:00:00Z',
    )
    await expect
      .poll(() => panelOf(page).textContent(), { timeout: 60_000 })
      .toMatch(/Received long after they were taken/)
    expect(await tableOf(page)).toMatch(/received late/i)
    await close()
  })

  it('the bracket in the sun swings past its level while the building beside it does not', async () => {
    const swing = async (point: string) => {
      const { page, close } = await openSamplePage(
        browser,
        wall,
        `?selected=point:${point}/tilt&sheet=history&at=2027-08-20T12:00:00Z`,
      )
      await expect.poll(() => panelOf(page).textContent(), { timeout: 60_000 }).toContain('Level 1')
      const table = await tableOf(page)
      await close()
      return Math.max(
        ...[...table.matchAll(/−?\d\.\d{3,4}/g)].map(([text]) => Number(text.replace('−', '-'))),
      )
    }
    expect(await swing('TL-11')).toBeGreaterThan(0.057)
    expect(await swing('TL-12')).toBeLessThan(0.057)
  })
})
