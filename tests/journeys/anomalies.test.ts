import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { pageRests } from '../support/page-rests.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'
import { visit } from '../support/visit.ts'

// The demo's own truth is in sample-site/truth; what is checked here is that a person can see it.
let browser: Browser
let page: Page
let close: () => Promise<void>
beforeAll(async () => {
  browser = await openChromium()
  ;({ page, close } = await openSamplePage(browser, wall))
})
afterAll(async () => {
  await close?.()
  await browser?.close()
})

const panelOf = (page: Page) => page.getByRole('tabpanel')

/** Goes to an address by way of the plan alone at its instant: nothing of the sheet before is taken for what is asked. */
async function goTo(query: string): Promise<void> {
  await visit(page, `?at=${new URLSearchParams(query).get('at')}`)
  await expect.poll(() => panelOf(page).locator('svg, table').count()).toBe(0)
  await pageRests(page)
  await visit(page, query)
}

/** Opens the table that stands beside a picture and returns its text. */
async function tableOf(page: Page): Promise<string> {
  await page.getByText('The same as a table').click()
  await expect.poll(() => panelOf(page).locator('table').last().textContent()).toMatch(/\d/)
  return (await panelOf(page).locator('table').last().textContent()) ?? ''
}

describe('what was planted can be seen', () => {
  it('the drifting piezometer passes its hold point, which is drawn and named', async () => {
    await goTo('?selected=point:PZ-05C/pore-pressure&sheet=history&at=2027-07-12T00:00:00Z')
    await expect
      .poll(() => panelOf(page).textContent(), { timeout: 60_000 })
      .toMatch(/mean of a week at most 121\.6 kPa/)
    const value = /([\d.]+) kPa/.exec((await page.getByRole('complementary').textContent()) ?? '')?.[1]
    expect(Number(value)).toBeLessThan(123)
  })

  it('the leaking drain makes a bowl at SP-31 that its neighbours do not share', async () => {
    await goTo('?sheet=register&find=SP-3&at=2027-08-20T12:00:00Z')
    const settlement = async (point: string) => {
      const row = page.getByRole('row').filter({ hasText: new RegExp(`${point}Settlement`) })
      await expect.poll(() => row.count(), { timeout: 60_000 }).toBe(1)
      return Number(/Settlement([\d.]+) mm/.exec((await row.textContent()) ?? '')?.[1])
    }
    // Values of that instant come a moment after the rows.
    await expect.poll(() => settlement('SP-31'), { timeout: 60_000 }).toBeGreaterThan(15)
    expect(await settlement('SP-34')).toBeLessThan(9)
  })

  it('the contours show the bowl and say how they were made and what was left out', async () => {
    await goTo('?layers=works+labels+contours&at=2027-08-20T12:00:00Z')
    await expect
      .poll(() => page.getByRole('main').textContent(), { timeout: 60_000 })
      .toMatch(/\d+ (points|marks|of \d+).*(left out|used)/i)
  })

  it('the silence of LG-19 is drawn as received late', async () => {
    await goTo('?selected=point:ST-06/force&sheet=history&at=2027-08-20T12:00:00Z')
    await expect
      .poll(() => panelOf(page).textContent(), { timeout: 60_000 })
      .toMatch(/Received long after they were taken/)
    expect(await tableOf(page)).toMatch(/received late/i)
  })

  it('the bracket in the sun swings past its level while the building beside it does not', async () => {
    const swing = async (point: string) => {
      await goTo(`?selected=point:${point}/tilt&sheet=history&at=2027-08-20T12:00:00Z`)
      await expect.poll(() => panelOf(page).textContent(), { timeout: 60_000 }).toContain('Level 1')
      const table = await tableOf(page)
      return Math.max(
        ...[...table.matchAll(/−?\d\.\d{3,4}/g)].map(([text]) => Number(text.replace('−', '-'))),
      )
    }
    expect(await swing('TL-11')).toBeGreaterThan(0.057)
    expect(await swing('TL-12')).toBeLessThan(0.057)
  })
})
