import { createHash } from 'node:crypto'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { openSamplePage, sampleAddress, wall } from '../support/sample-page.ts'
import { tabTo } from '../support/tab-to.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openChromium()
})
afterAll(() => browser.close())

const query = '?selected=point:PZ-05C/pore-pressure&sheet=review&at=2027-07-12T00:00:00Z'

/** Everything that the server says of the site: what is told now, and from what it is drawn. */
async function published(): Promise<string> {
  const hash = createHash('sha256')
  for (const part of ['', '/state', '/slices', '/calibrations?sensor=PZ-05C/pore-pressure']) {
    const answer = await fetch(`${sampleAddress()}/api/sites/skarrow-quay${part}`)
    expect(answer.status, part).toBe(200)
    hash.update(new Uint8Array(await answer.arrayBuffer()))
  }
  return hash.digest('hex')
}

const said = async (page: Page) => (await page.locator('.what-if-said').textContent()) ?? ''
const levels = (page: Page) => page.getByRole('region', { name: 'Levels', exact: true })
const kiloPascals = (text: string | undefined): number => Number((text ?? '').replace('−', '-'))

it('tries another zero of a reviewed pressure beside the official series, and changes nothing official', async () => {
  const before = await published()
  const { page, faults, close } = await openSamplePage(browser, wall, query)
  await page.getByRole('heading', { name: /^PZ-05C/ }).waitFor()
  await expect.poll(() => page.locator('.review-cause').count(), { timeout: 120_000 }).toBeGreaterThan(0)

  await page.getByRole('tab', { name: 'Review' }).focus()
  await page.keyboard.press('ArrowRight')
  await expect
    .poll(() => page.getByRole('tab', { name: 'What if' }).getAttribute('aria-selected'))
    .toBe('true')
  const offered = page.getByRole('button', { name: '+ Zero reading' })
  await offered.waitFor({ timeout: 90_000 })
  await expect.poll(() => said(page), { timeout: 60_000 }).toMatch(/All \d+ readings are as they are/)
  const untouched = await levels(page).locator('tbody').textContent()

  await tabTo(offered)
  await page.keyboard.press('Enter')
  const reads = page.getByLabel('It is to read there, kPa')
  await reads.waitFor()
  // It begins with what is published, which is rounded: some readings fall to the other side of a half.
  await expect.poll(() => said(page)).toMatch(/mean 0\.0 kPa, from 0\.0 kPa .* to 0\.0 kPa|All \d+ readings/)
  // A change has been added before it; the focus goes on from where it was.
  await page.getByLabel('Zero reading', { exact: true }).focus()
  await tabTo(reads)
  const official = Number(await reads.inputValue())
  expect(official).toBeGreaterThan(50)

  // Where the zero is the last step of a chain, what it is moved by is what every reading after it is moved by:
  // common practice, no published source.
  const moved = async (by: number) => {
    await page.keyboard.press('ControlOrMeta+A')
    await page.keyboard.type(String(official + by))
    await expect
      .poll(
        async () => {
          const [, mean, low, high] =
            /mean ([+−][\d.]+) kPa, from ([+−][\d.]+) kPa .*? to ([+−][\d.]+) kPa/.exec(
              (await said(page)).replaceAll('\u00a0', ' ').replaceAll('\u202f', ' '),
            ) ?? []
          return [mean, low, high].map(kiloPascals)
        },
        { timeout: 30_000 },
      )
      .toEqual([by, by, by].map((one) => expect.closeTo(one, 1)))
  }
  await moved(2.3)
  await moved(25)
  const table = levels(page).locator('tbody')
  await expect.poll(() => table.textContent(), { timeout: 30_000 }).toContain('would be reached')
  const rows = await table.locator('tr.what-if-other').allTextContents()
  // Both sides stand beside each other, and the official one is what it was without a sandbox.
  const officially = await table.locator('tr td:nth-child(3)').allTextContents()
  expect(officially.every((text) => (untouched ?? '').includes(text))).toBe(true)
  expect(rows.length).toBeGreaterThan(0)
  expect(await page.getByText('nothing official changes').isVisible()).toBe(true)

  // The address follows what was typed; until then it has the number before.
  await expect
    .poll(() => new URL(page.url()).searchParams.get('whatif'), { timeout: 10_000 })
    .toContain(String(official + 25))
  const again = await openSamplePage(browser, wall, new URL(page.url()).search)
  await expect.poll(() => said(again.page), { timeout: 90_000 }).toBe(await said(page))
  await expect.poll(() => levels(again.page).textContent()).toBe(await levels(page).textContent())
  await again.close()

  expect(await published()).toBe(before)
  expect(faults).toEqual([])
  await close()
}, 300_000)
