import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, tablet } from '../support/sample-page.ts'

let browser: Browser
let page: Page
let close: () => Promise<void>
beforeAll(async () => {
  browser = await openChromium()
  // Its level has been reached on this day, so that what a verdict does not do can be seen.
  const query = '?selected=point:SP-31/settlement&sheet=record&at=2027-08-10T06:00:00Z'
  ;({ page, close } = await openSamplePage(browser, tablet, query))
})
afterAll(async () => {
  await close?.()
  await browser?.close()
})

const said = () => page.getByRole('region', { name: 'What is said of its readings' })
const form = () => page.getByRole('form', { name: 'Verdict on readings' })
const standing = () => page.getByText(/Level 2: \d/).textContent()

describe('a person’s verdict on readings', () => {
  it('is entered by dates, lowers no level, is listed, and is withdrawn with a reason', async () => {
    await said().getByRole('button', { name: 'Enter a verdict' }).click({ timeout: 60_000 })
    const before = await standing()
    await form().getByLabel('From', { exact: true }).fill('2027-08-01T00:00')
    await form().getByLabel('Until before').fill('2027-08-12T00:00')
    const covers = form().getByRole('status', { name: 'What it covers' })
    await expect
      .poll(() => covers.textContent(), { timeout: 60_000 })
      .toMatch(/[1-9]\d* readings.*A trigger level was reached within it.*A verdict lowers no level/)
    await form().getByRole('radio', { name: 'rejected' }).check()
    await form().getByLabel('Laid on').selectOption('sensor')
    await form().getByLabel('How sure').selectOption('likely')
    const reason = `mark disturbed, entered at ${performance.now()}`
    await form().getByLabel('Reason').fill(reason)
    await form().getByLabel('Also considered').fill('settlement: the marks beside it agree with it')
    await form().getByLabel('Your name').fill('A. Tester')
    await form().getByRole('button', { name: 'Save the verdict' }).click()
    await form().waitFor({ state: 'detached', timeout: 30_000 })
    const first = said().locator('tbody tr').first()
    await expect.poll(() => first.textContent(), { timeout: 30_000 }).toContain(reason)
    expect(await standing()).toBe(before)

    await first.getByRole('button', { name: /^Withdraw VE-/ }).click()
    const withdrawal = page.getByRole('form', { name: 'Withdrawal of a verdict' })
    await withdrawal.getByLabel('Why it is withdrawn').fill('the mark was sound')
    await withdrawal.getByRole('button', { name: /^Withdraw VE-/ }).click()
    await expect
      .poll(() => first.textContent(), { timeout: 30_000 })
      .toMatch(/Withdrawn by A\. Tester on .*: the mark was sound/)
  })
})
