import { readFile } from 'node:fs/promises'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('a file brought by a person', () => {
  it('is looked at first, refused with a reason where nothing can be made of it, and listed', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall, '?sheet=imports')
    await page.getByLabel(/Drop a logger file here/).setInputFiles({
      name: 'holiday.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0]),
    })
    const panel = page.getByRole('tabpanel', { name: 'Imports' })
    await expect.poll(() => panel.textContent(), { timeout: 30_000 }).toMatch(/holiday\.jpg/)
    await expect
      .poll(() => panel.textContent(), { timeout: 30_000 })
      .toMatch(/binary|no text|not text|picture|no table/i)
    expect(faults.filter((fault) => !fault.includes('422'))).toEqual([])
    await close()
  })

  it('counts every reading of a file that was there before as repeated', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall, '?sheet=imports')
    const panel = page.getByRole('tabpanel', { name: 'Imports' })
    const known = await readFile('.cache/test-data/sample-raw/raw/rounds/levelling_20270203.csv', 'utf8')
    // An empty line more, so that the file differs and its readings do not.
    await page.getByLabel(/Drop a logger file here/).setInputFiles({
      name: 'levelling_20270203.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(`${known}\r\n`),
    })
    const look = page.getByRole('region', { name: /First look at levelling_20270203/ })
    await expect.poll(() => look.textContent(), { timeout: 30_000 }).toContain('SP-01')
    await look.getByRole('button', { name: 'Take it in' }).click()
    const receipt = panel.getByRole('article').filter({ hasText: 'levelling_20270203.csv' }).first()
    await expect
      .poll(() => receipt.textContent(), { timeout: 30_000 })
      .toMatch(/accepted0repeated5\d+conflicting0/)
    expect(faults).toEqual([])
    await close()
  })

  it('of an unknown layout is declared in the page, taken, and every cell accounted for', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall, '?sheet=imports')
    const panel = page.getByRole('tabpanel', { name: 'Imports' })
    // Channels of a registered logger that no sensor is wired to: nothing that is shown changes.
    const hours = ['06', '07', '08', '09', '10', '11', '12', '13']
    const rows = hours.map(
      (hour, at) => `2027-10-01 ${hour}:00;1.${at};${hour === '09' ? 'oops' : `2.${at}`}`,
    )
    // The data folder outlives a run, and so would a layout that an earlier run declared.
    const lines = [`when ${Date.now()};SK7105 CH15;SK7105 CH16`, ...rows]
    const name = `bench-${Date.now()}.txt`
    await page.getByLabel(/Drop a logger file here/).setInputFiles({
      name,
      mimeType: 'text/plain',
      buffer: Buffer.from(`${lines.join('\n')}\n`),
    })
    const look = page.getByRole('region', { name: `First look at ${name}` })
    await expect.poll(() => look.textContent(), { timeout: 30_000 }).toContain('No declared layout fits')
    await look.getByText('Declare a layout for files like this one').click()
    await look.getByLabel('Short name').fill('Bench Files')
    await look.getByLabel('Title').fill('Bench')
    await look.getByLabel('Zone', { exact: true }).fill('UTC')
    await look.getByLabel('Why it is declared so').fill('read on the bench')
    await look.getByRole('button', { name: 'Declare the layout' }).click()
    await expect.poll(() => look.getByRole('alert').textContent()).toMatch(/layout\.id/)
    await look.getByLabel('Short name').fill(name.replace('.txt', ''))
    await look.getByLabel('File names').fill(`^${name.replace('.', '\\.')}$`)
    await look.getByRole('button', { name: 'Declare the layout' }).click()
    await expect.poll(() => look.textContent(), { timeout: 30_000 }).toContain('Chosen by intake: Bench')
    await look.getByRole('button', { name: 'Take it in' }).click()
    const receipt = panel.getByRole('article').filter({ hasText: name }).first()
    await expect.poll(() => receipt.textContent(), { timeout: 30_000 }).toMatch(/quarantined1/)
    await receipt.getByRole('button', { name: 'Show quarantine' }).click()
    await expect.poll(() => panel.textContent()).toMatch(/oops/)
    expect(faults.filter((fault) => !fault.includes('400'))).toEqual([])
    await close()
  })
})
