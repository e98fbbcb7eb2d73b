import { createHash } from 'node:crypto'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { bringLaterData } from '../support/bring-later-data.ts'
import { openChromium } from '../support/open-chromium.ts'
import { startOwnServer } from '../support/own-server.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

let browser: Browser
let server: Awaited<ReturnType<typeof startOwnServer>>
beforeAll(async () => {
  server = await startOwnServer('report-data')
  browser = await openChromium()
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
})

const statement = 'The pressure under the slab rests where it was.\n\nNothing asks for more readings.'
/** By far the longest to draw; a day of readings is told without them. */
const leftOut = ['Plan', 'Sections', 'Profiles by depth', 'Readings over time', 'Calibrations used']

it('issues a report under a name, and makes the same bytes again after more has come in', async () => {
  const { page, faults, close } = await openSamplePage(browser, wall, '?sheet=reports', server.address)
  const panel = page.getByRole('tabpanel', { name: 'Reports' })
  await panel.getByRole('button', { name: 'Make a report' }).click({ timeout: 60_000 })
  const form = panel.getByRole('form', { name: 'Report' })
  const make = form.getByRole('button', { name: 'Freeze the data and make it' })
  // The site's clock is an hour behind UTC again since the morning of the 31st.
  await form.getByLabel('Period from').fill('2027-10-30T17:00')
  await form.getByLabel('until', { exact: true }).fill('2027-10-31T17:00')
  await form.getByLabel('Data received until').fill('2027-10-31T17:00')
  for (const part of leftOut) await form.getByLabel(part, { exact: true }).uncheck()
  await form.getByLabel('Your name').fill('Ada Marsh')
  // Whoever writes nothing is given nothing to issue.
  await form.getByText('Write your statement first').waitFor()
  expect(await make.isDisabled()).toBe(true)
  await form.getByLabel('Your statement').fill(statement)
  await make.click()
  const issue = panel.getByRole('button', { name: 'Issue it under the name Ada Marsh' })
  await issue.waitFor({ timeout: 240_000 })
  await issue.click()

  const card = panel.locator('.issued-reports > li')
  await card.waitFor({ timeout: 60_000 })
  expect(await card.textContent()).toMatch(/On request report 1.*by Ada Marsh, A4/)
  const hashes = await card.locator('.report-files code').allTextContents()
  expect(hashes).toHaveLength(2)
  const links = await card
    .locator('.report-files a')
    .evaluateAll((all) => all.map((link) => (link as HTMLAnchorElement).href))
  const files = await Promise.all(
    links.map(async (link) => new Uint8Array(await (await fetch(link)).arrayBuffer())),
  )
  // FIPS 180-4, worked out by Node.
  const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
  expect(files.map(sha256)).toEqual(hashes)

  await bringLaterData(server.address)
  await card.getByText('Statement, and whether it can be made again').click()
  await card.getByRole('button', { name: 'Make again and compare' }).click()
  const outcome = card.locator('.report-rebuild [role=status]')
  await outcome.waitFor({ timeout: 240_000 })
  expect(await outcome.locator('p').allTextContents()).toEqual(
    ['report.html', 'report.pdf'].map((name, at) => `${name}: same SHA-256 as issued, ${hashes[at]}.`),
  )
  expect(faults).toEqual([])
  await close()

  const html = new TextDecoder().decode(files[links.findIndex((link) => link.endsWith('.html'))])
  await readsWell(html)
}, 600_000)

/** As whoever received the file by mail opens it: with nothing beside it. */
async function readsWell(html: string): Promise<void> {
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage()
  const asked: string[] = []
  await page.route('**', (route) => {
    asked.push(route.request().url())
    return route.fulfill({ contentType: 'text/html; charset=utf-8', body: html })
  })
  await page.goto('http://report.test/')
  expect(asked.filter((url) => !url.endsWith('/favicon.ico'))).toEqual(['http://report.test/'])
  expect(await page.locator('script, iframe, object, embed, link, base').count()).toBe(0)
  const handlers = await page
    .locator('*')
    .evaluateAll((all) =>
      all.flatMap(({ attributes }) => [...attributes]).filter(({ name }) => /^on/.test(name)),
    )
  expect(handlers).toEqual([])
  // Before what was counted and drawn stands what an engineer says of it, under a name.
  const first = page.getByRole('main').locator('> *').first()
  expect(await first.getAttribute('aria-label')).toBe('Statement of the engineer')
  expect(await first.textContent()).toContain('The pressure under the slab rests')
  expect(await page.getByRole('banner').textContent()).toContain('Ada Marsh')
  // axe-core checks the rules of WCAG 2.2 A and AA that a program can check.
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
}
