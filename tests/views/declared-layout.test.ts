import type { Browser, Locator } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, wall } from '../support/sample-page.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

describe('a layout declared in the page', () => {
  it('says at each field what is wrong, and is corrected as a next version', async () => {
    const { page, faults, close } = await openSamplePage(browser, wall, '?sheet=imports')
    const panel = page.getByRole('tabpanel', { name: 'Imports' })
    // Channels of a registered logger that no sensor is wired to: nothing that is shown changes.
    const hours = ['06', '07', '08', '09', '10', '11', '12', '13']
    const rows = hours.map(
      (hour, at) => `2027-10-02 ${hour}:00;1.${at};${hour === '09' ? 'oops' : `2.${at}`}`,
    )
    // The data folder outlives a run, and so would a layout that an earlier run declared.
    const lines = [`when ${Date.now()};SK7105 CH15;SK7105 CH16`, ...rows]
    const name = `declared-${Date.now()}.txt`
    await page.getByLabel(/Drop a logger file here/).setInputFiles({
      name,
      mimeType: 'text/plain',
      buffer: Buffer.from(`${lines.join('\n')}\n`),
    })
    const look = page.getByRole('region', { name: `First look at ${name}` })
    await expect.poll(() => look.textContent(), { timeout: 30_000 }).toContain('No declared layout fits')
    const layoutName = name.replace('.txt', '')
    const shortName = look.getByLabel('Short name')
    const zone = look.getByLabel('Zone', { exact: true })
    const declare = look.getByRole('button', { name: 'Declare the layout' })
    await look.getByText('Declare a layout for files like this one').click()
    await shortName.fill('Bench Files')
    await look.getByLabel('Title').fill('Bench')
    await zone.fill('Atlantic/Atlantis')
    await look.getByLabel('Why it is declared so').fill('read on the bench')
    await declare.click()
    // What this page sees for itself, then what the server says; each is read out with its field.
    await expect.poll(() => descriptionOf(zone)).toMatch(/zone is not known/)
    await zone.fill('UTC')
    await declare.click()
    await expect.poll(() => descriptionOf(shortName), { timeout: 10_000 }).toMatch(/must match pattern/)
    expect(await shortName.evaluate((field) => field === document.activeElement)).toBe(true)
    await shortName.fill(layoutName)
    await look.getByLabel('File names').fill(`^${name.replace('.', '\\.')}$`)
    await page.keyboard.press('Enter')
    await expect.poll(() => look.textContent(), { timeout: 30_000 }).toContain('Chosen by intake: Bench')
    await look.getByRole('button', { name: 'Take it in' }).click()
    const receipt = panel.getByRole('article').filter({ hasText: name }).first()
    await expect.poll(() => receipt.textContent(), { timeout: 30_000 }).toMatch(/quarantined1/)
    // A run before this one may have brought the same readings.
    const counted = (await receipt.textContent()) ?? ''
    const [accepted = 0, repeated = 0] = ['accepted', 'repeated'].map((word) =>
      Number(new RegExp(`${word}(\\d+)`).exec(counted)?.[1]),
    )
    expect(accepted + repeated).toBe(2 * hours.length - 1)
    expect(counted).toContain('conflicting0')
    await receipt.getByRole('button', { name: 'Show quarantine' }).click()
    await expect.poll(() => panel.textContent()).toMatch(/oops/)

    await panel.getByText(/^Declared layouts: \d+/).click()
    const declared = panel.getByRole('row').filter({ hasText: layoutName })
    expect(await declared.getByRole('cell').first().textContent()).toBe('1')
    await declared.getByRole('button', { name: `Correct ${layoutName}` }).click()
    const next = panel
      .getByRole('group')
      .filter({ hasText: `Declare version 2 of ${layoutName}` })
      .last()
    await next.getByLabel('No reading').fill('oops')
    await next.getByLabel('Why it is declared so').fill('the bench writes it for no reading')
    await next.getByRole('button', { name: 'Declare the layout' }).click()
    await expect.poll(() => declared.getByRole('cell').first().textContent()).toBe('2')
    expect(faults.filter((fault) => !fault.includes('400'))).toEqual([])
    await close()
  })
})

/** What a screen reader adds to a field: the texts that describe it. */
function descriptionOf(field: Locator): Promise<string> {
  return field.evaluate((element) => {
    const ids = element.getAttribute('aria-describedby')?.split(' ') ?? []
    return ids.map((id) => document.getElementById(id)?.textContent ?? '').join(' ')
  })
}
