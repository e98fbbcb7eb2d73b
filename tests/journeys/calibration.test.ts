import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, sampleAddress, wall } from '../support/sample-page.ts'

let browser: Browser
let page: Page
let close: () => Promise<void>
beforeAll(async () => {
  browser = await openChromium()
  // A series and an instant on which nothing else depends: what is changed is changed back at the end.
  const query = '?selected=point:LG-25/battery-voltage&sheet=record&at=2027-10-30T12:00:00Z'
  ;({ page, close } = await openSamplePage(browser, wall, query))
})
afterAll(async () => {
  await close?.()
  await browser?.close()
})

const calibrations = () => page.getByRole('region', { name: 'Calibrations' })
const form = () => page.getByRole('form', { name: 'Draft of a calibration' })
const effect = () => page.getByRole('region', { name: 'What the draft would change' })
const newest = () => calibrations().locator('tbody tr').first().locator('th').textContent()
const version = async () => Number.parseInt((await newest()) ?? '', 10)

async function draft(factor: string, reason: string) {
  await page.getByRole('button', { name: 'Draft a new version' }).click()
  await form().getByLabel('Holds from').fill('2027-10-30T06:00')
  await form().getByLabel('factor', { exact: true }).fill(factor)
  await form().getByLabel('Your name').fill('A. Tester')
  await form().getByLabel('Why this version is needed').fill(reason)
}

async function lookAndSave() {
  await form().getByRole('button', { name: 'Look at what it would change' }).click()
  await effect().waitFor({ timeout: 30_000 })
  const told = await effect().textContent()
  await effect()
    .getByRole('button', { name: /Save as version/ })
    .click()
  await form().waitFor({ state: 'detached', timeout: 30_000 })
  await expect
    .poll(() => page.getByText(/Values are being worked out anew/).count(), { timeout: 60_000 })
    .toBe(0)
  return told
}

const computed = async () =>
  ((await page.getByRole('region', { name: /How this was computed/ }).textContent()) ?? '').replace(
    /\s+/g,
    ' ',
  )

describe('a calibration is corrected by a new version', () => {
  it('judged first, looked at over the whole series, saved with a reason, and seen in the trail', async () => {
    await calibrations().getByText('none is ever edited').waitFor({ timeout: 60_000 })
    const before = await version()

    await draft('', 'to see what is said')
    await form().evaluate((one) => ((one as HTMLFormElement).noValidate = true))
    await form().getByRole('button', { name: 'Look at what it would change' }).click()
    await form()
      .getByText(/“factor” is not a number/)
      .waitFor()
    expect(await effect().count()).toBe(0)
    await form().getByRole('button', { name: 'Leave it' }).click()

    await draft('2.1', 'divider measured again')
    const told = await lookAndSave()
    expect(told).toMatch(/[1-9]\d* of \d+ readings of LG-25\/battery-voltage would have another value/)
    expect(told).toMatch(/greatest change is at/)
    await expect.poll(version).toBe(before + 1)
    await page.goto(
      `${sampleAddress()}/?selected=point:LG-25/battery-voltage&sheet=record&at=2027-10-30T11:00:00Z`,
    )
    await expect.poll(computed, { timeout: 60_000 }).toContain(`version ${before + 1}`)
    await expect
      .poll(() => calibrations().textContent(), { timeout: 30_000 })
      .toContain('divider measured again')

    await draft('2', 'the first measurement was right')
    await lookAndSave()
    await expect.poll(version).toBe(before + 2)
  })
})
