import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type AlertRecord, type AlertsDocument, type ListedAlert, stepPath } from '#contract/alerts.ts'
import { alertGroups } from '../../web/derived/alerts/alert-groups.ts'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, sampleAddress, wall } from '../support/sample-page.ts'

const site = 'skarrow-quay'
let browser: Browser
let alert: ListedAlert

const asked = async <T>(path: string, request?: RequestInit): Promise<T> =>
  (await (await fetch(`${sampleAddress()}${path}`, request)).json()) as T

beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

/** An alert that nobody has taken up. The data is kept between runs: where all were closed by earlier ones, one is opened again. */
async function openAlertOfTheSample(): Promise<ListedAlert> {
  const list = `/api/sites/${site}/alerts`
  const placed = async () =>
    (await asked<AlertsDocument>(list)).alerts.filter(({ point, bornOut }) => point !== null && bornOut)
  await expect.poll(async () => (await placed()).length, { timeout: 120_000 }).toBeGreaterThan(0)
  const known = await placed()
  const waiting = alertGroups(known)[0]?.alerts[0]
  if (waiting) return waiting
  const closed = known.find(({ state }) => state === 'closed')
  if (!closed) throw new Error('the sample has no alert that can be worked on')
  const { latest } = await asked<AlertRecord>(`${list}/${closed.alert}`)
  const step = { kind: 'reopen', reason: 'to go through it again' }
  const { alert: reopened } = await asked<AlertRecord>(stepPath(site, closed.alert, 'reopen'), {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: sampleAddress() },
    body: JSON.stringify({ step, author: 'A. Tester', latest }),
  })
  return reopened
}

/** Goes on with the Tab key until what is focused has that name. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let tabs = 0; tabs < 200; tabs++) {
    const focused = await page.evaluate(
      () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent?.trim(),
    )
    if (focused === name) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`the Tab key does not lead to "${name}"`)
}

const part = (page: Page, name: string) => page.getByRole('region', { name, exact: true })
const card = (page: Page, heading: string) =>
  part(page, heading)
    .getByRole('article')
    .filter({ hasText: new RegExp(`alert ${alert.alert}(?!\\d)`) })

describe('an alert', () => {
  it('is taken up, verified and closed by keyboard, on the plan and in the register, and told to another page', async () => {
    alert = await openAlertOfTheSample()
    const query = `?site=${site}&selected=point:${alert.point}/${alert.series?.split('/')[1]}`
    const first = await openSamplePage(browser, wall, query)
    const second = await openSamplePage(browser, wall, `${query}&sheet=alerts&alert=${alert.alert}`)
    const { page } = first
    await part(second.page, 'What happened').waitFor({ timeout: 60_000 })

    await page.keyboard.press('a')
    await card(page, 'Needs somebody now').waitFor({ timeout: 60_000 })
    await expect.poll(() => page.locator('.symbol-card').textContent()).toContain(`Alert ${alert.alert}`)
    const keyRow = page.locator('.key-row').filter({ hasText: 'Taken up' })
    const framed = Number(await keyRow.locator('.key-count').textContent())
    expect(await page.title()).toMatch(/^\(\d+\) /)

    await tabTo(page, `Acknowledge alert ${alert.alert}`)
    await page.keyboard.press('Enter')
    await page.keyboard.type('going there now')
    await page.keyboard.press('Tab')
    await page.keyboard.press('ControlOrMeta+a')
    await page.keyboard.type('A. Tester')
    const answered = page.waitForResponse((one) => one.url().endsWith('/acknowledge'))
    await page.keyboard.press('Enter')
    await answered
    await second.page
      .getByText(/Taken up by A\. Tester.*going there now/)
      .first()
      .waitFor({ timeout: 10_000 })
    await card(page, 'Acknowledged, to be verified').waitFor()
    await expect.poll(async () => Number(await keyRow.locator('.key-count').textContent())).toBe(framed + 1)

    await page.keyboard.press('r')
    const row = page.getByRole('row').filter({ hasText: `${alert.alert} taken up` })
    await expect.poll(() => row.count(), { timeout: 30_000 }).toBeGreaterThan(0)

    await page.keyboard.press('a')
    await tabTo(page, `Verify alert ${alert.alert}`)
    await page.keyboard.press('Enter')
    await page.keyboard.press('Space')
    await page.keyboard.press('Tab')
    await page.keyboard.type('levelled again, the first reading is borne out')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    await card(page, 'Verified, to be closed').waitFor()

    await page.keyboard.press('a')
    await tabTo(page, `Close alert ${alert.alert}`)
    await page.keyboard.press('Enter')
    await page.keyboard.type('The designer decided that digging may go on, minuted today')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    await card(page, 'Closed in the last 90 days, or still reached').waitFor()
    expect(await card(page, 'Closed in the last 90 days, or still reached').textContent()).toMatch(
      /Taken up by A\. Tester.*Verified by A\. Tester.*real.*Closed by A\. Tester/,
    )
    await second.page
      .getByText(/Closed by A\. Tester/)
      .first()
      .waitFor({ timeout: 10_000 })
    expect([...first.faults, ...second.faults]).toEqual([])
    await second.close()
    await first.close()
  })

  it('is shown as it stood at a past clock, where no step is offered', async () => {
    const { page, close } = await openSamplePage(
      browser,
      wall,
      `?site=${site}&sheet=alerts&at=2027-08-10T06:00:00Z`,
    )
    await page.getByText(/As it stood at Tue 10 Aug 2027/).waitFor({ timeout: 60_000 })
    expect(await page.getByRole('button', { name: /^(Acknowledge|Verify|Close) alert/ }).count()).toBe(0)
    await close()
  })
})
