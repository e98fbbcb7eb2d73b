import { cpSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { FieldDocument } from '#contract/field-entry.ts'
import { groupBy } from '#domain/group-by.ts'
import { openChromium } from '../support/open-chromium.ts'
import { tablet, waitForMark } from '../support/sample-page.ts'
import { startServer } from '../support/start-server.ts'

// A server of its own, on a copy: what is written here must not stand in the way of other journeys.
const prepared = fileURLToPath(new URL('../../.cache/test-data', import.meta.url))
const folder = fileURLToPath(new URL('../../.cache/field-data', import.meta.url))

let browser: Browser
let server: Awaited<ReturnType<typeof startServer>>
beforeAll(async () => {
  rmSync(folder, { recursive: true, force: true })
  cpSync(prepared, folder, { recursive: true })
  server = await startServer(folder)
  browser = await openChromium()
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
  rmSync(folder, { recursive: true, force: true })
})

const openDevice = (): Promise<BrowserContext> =>
  browser.newContext({
    viewport: { width: tablet.width, height: tablet.height },
    hasTouch: true,
    isMobile: true,
    permissions: ['geolocation'],
    // On the invented site, where its grid says 500 030, 309 990.
    geolocation: { latitude: 47.9999, longitude: -29.9996, accuracy: 6 },
  })

async function openField(context: BrowserContext, field: string): Promise<Page> {
  const page = await context.newPage()
  await page.goto(`${server.address}/?sheet=field&field=${field}`)
  await waitForMark(page, 'plan-coloured')
  return page
}

const goTo = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Field work' }).getByRole('button', { name, exact: true }).tap()

async function fieldDocument(): Promise<FieldDocument> {
  const answer = await fetch(`${server.address}/api/sites/skarrow-quay/field-entries?after=0`)
  return (await answer.json()) as FieldDocument
}

async function keepTest(page: Page, author: string, received: string): Promise<void> {
  await goTo(page, 'Coverage test')
  await page.getByLabel('Test number').fill('CT-900')
  await page.getByLabel('Logger that stands here').selectOption('LG-05')
  await page.getByLabel('Sent at 10').fill('20')
  await page.getByLabel('Received at 10').fill(received)
  await page.getByLabel('Your name').fill(author)
  await page.getByRole('button', { name: 'Keep this test' }).tap()
  await page.getByText('Test CT-900 is kept on this device.').waitFor()
}

const photo = (i: number) => ({
  name: `crack-${i}.jpg`,
  mimeType: 'image/jpeg',
  buffer: Buffer.from(`photo ${i} `.repeat(5000)),
})
const photos = [0, 1, 2, 3, 4].map(photo)

describe('a day along the works without a network', () => {
  it('starts cold, takes readings, photos, a test and a commissioned logger, and all of it arrives once', async () => {
    const device = await openDevice()
    const other = await openDevice()
    const first = await openField(device, 'device')
    await first.getByRole('button', { name: 'Keep this site on this device' }).tap()
    await first.getByText('The page opens without a network').waitFor({ timeout: 120_000 })
    const elsewhere = await openField(other, 'coverage')
    await elsewhere.getByLabel('Test number').waitFor()
    // Both have synchronised before the network goes.
    await first.close()
    await device.setOffline(true)
    await other.setOffline(true)

    const page = await openField(device, 'reading')
    await page.getByText(/No answer from the server since/).waitFor()
    await takeReadings(page, 50)
    await takePhotos(page)
    const steps = await commissionLogger(page)
    await keepTest(page, 'Field engineer', '15')
    await keepTest(elsewhere, 'Second engineer', '6')

    await goTo(page, 'Outbox')
    const status = page.getByRole('region', { name: 'Outbox' }).getByRole('status')
    await expect
      .poll(() => status.textContent())
      .toContain(`${50 + 1 + steps + 1 + 1} entries and 5 photos and files not yet confirmed`)
    expect((await fieldDocument()).entries).toEqual([])

    await device.setOffline(false)
    await other.setOffline(false)
    await expect.poll(() => status.textContent(), { timeout: 90_000 }).toMatch(/Nothing waits on this device/)
    await expect
      .poll(
        async () =>
          (await fieldDocument()).entries.filter(({ entry }) => entry.body.kind === 'coverage-test').length,
        {
          timeout: 90_000,
        },
      )
      .toBe(2)

    const { entries } = await fieldDocument()
    expect(new Set(entries.map(({ entry }) => entry.id)).size).toBe(entries.length)
    const byKind = groupBy(entries, ({ entry }) => entry.body.kind)
    expect(byKind.get('reading')).toHaveLength(50)
    expect(byKind.get('note')).toHaveLength(1)
    expect(byKind.get('commissioning-signature')).toHaveLength(1)
    await expect
      .poll(
        async () =>
          (await fieldDocument()).entries.filter(
            ({ entry, effect }) => entry.body.kind === 'reading' && effect?.outcome === 'taken',
          ).length,
        { timeout: 60_000 },
      )
      .toBe(50)
    const batches = (await (await fetch(`${server.address}/api/sites/skarrow-quay/batches`)).json()) as {
      batches: { layout: string | null; accepted: number; repeated: number; conflicting: number }[]
    }
    const taken = batches.batches.filter(({ layout }) => layout === 'field-readings')
    expect(taken.reduce((sum, { accepted }) => sum + accepted, 0)).toBe(50)
    expect(taken.reduce((sum, { conflicting }) => sum + conflicting, 0)).toBe(0)
    // Each of the five is here with the bytes that were chosen for it.
    const attachments = byKind.get('note')?.[0]?.entry.attachments ?? []
    expect(attachments).toHaveLength(5)
    for (const { name, mimeType, buffer } of photos) {
      const attachment = attachments.find((one) => one.name === name)
      expect(attachment).toMatchObject({ bytes: buffer.length, mediaType: mimeType })
      const file = await fetch(`${server.address}/api/sites/skarrow-quay/attachments/${attachment?.sha256}`)
      expect(file.status).toBe(200)
      expect(Buffer.from(await file.arrayBuffer()).equals(buffer)).toBe(true)
    }

    // What two wrote on one test stands side by side on both devices, until a person says which holds.
    await page.getByRole('button', { name: 'Synchronise now' }).tap()
    await page.getByRole('button', { name: 'This one of Second engineer holds' }).waitFor({ timeout: 30_000 })
    await page.getByLabel('Why it holds').fill('The first one was made with the lid open.')
    await page.getByRole('button', { name: 'This one of Second engineer holds' }).tap()
    await expect.poll(() => page.getByRole('heading', { name: 'Written twice' }).count()).toBe(0)
    await device.close()
    await other.close()
  }, 300_000)

  it('says plainly what is wrong: a position far off, a photo of 40 MB, a time a day ahead, a full device', async () => {
    const device = await openDevice()
    await device.setGeolocation({ latitude: 48.0275, longitude: -30, accuracy: 8 })
    const page = await openField(device, 'note')
    await page.getByRole('button', { name: 'Use my position' }).tap()
    await page.getByText(/\d\.\d km from the nearest point of this site. That position is not used/).waitFor()
    await page.getByLabel('Photos and files').setInputFiles({
      name: 'huge.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.alloc(40_000_000, 7),
    })
    await page.getByText(/huge.jpg has 40 MB; at most 24 MB go with an entry/).waitFor()
    await goTo(page, 'Reading')
    await page.getByLabel('Sensor').selectOption('WS-01/water-level')
    await page.getByLabel('Shown on the display').fill('4.04')
    await page.getByLabel(/^Read at/).fill('2027-11-01T21:00')
    await page.getByLabel('Your name').fill('Field engineer')
    await page.getByRole('button', { name: 'Keep this reading' }).tap()
    await page.getByText('The time lies ahead of now. Correct it, or this device’s clock.').waitFor()

    // A device without room: nothing is kept in part, and what was typed still stands there.
    // Chromium gives no way to fill a test's storage; the browser's own refusal stands in for it.
    await page.evaluate(() => {
      IDBObjectStore.prototype.add = () => {
        throw new DOMException('full', 'QuotaExceededError')
      }
    })
    await goTo(page, 'Note')
    await page.getByLabel('About').selectOption('CR-05')
    await page.getByLabel('What you saw').fill('No room for this.')
    await page.getByLabel('Your name').fill('Field engineer')
    await page.getByLabel('Photos and files').setInputFiles(photo(9))
    await page.getByRole('button', { name: 'Keep this note' }).tap()
    await page.getByText(/Nothing was kept: there is no room left on this device/).waitFor()
    expect(await page.getByLabel('What you saw').inputValue()).toBe('No room for this.')
    await goTo(page, 'Outbox')
    expect(await page.getByText('No room for this.').count()).toBe(0)
    await device.close()
  })
})

async function takeReadings(page: Page, count: number): Promise<void> {
  await page.getByLabel('Your name').fill('Field engineer')
  for (let i = 0; i < count; i++) {
    await page.getByLabel('Sensor').selectOption(`WS-0${1 + (i % 4)}/water-level`)
    await page
      .getByLabel(/^Read at/)
      .fill(`2027-10-31T${String(5 + Math.floor(i / 4)).padStart(2, '0')}:${10 + (i % 4)}`)
    await page.getByLabel('Shown on the display').fill(`4,${30 + i}`)
    const because = page.getByLabel('Read again, and kept because')
    if ((await because.count()) > 0) await because.fill('Dipped twice, the same.')
    await page.getByRole('button', { name: 'Keep this reading' }).tap()
    await expect.poll(() => page.getByLabel('Shown on the display').inputValue()).toBe('')
  }
}

async function takePhotos(page: Page): Promise<void> {
  await goTo(page, 'Note')
  await page.getByLabel('About').selectOption('CR-05')
  await page.getByLabel('What you saw').fill('Fresh plaster dust below the crack.')
  await page.getByLabel('Photos and files').setInputFiles(photos)
  await page.getByRole('button', { name: 'Keep this note' }).tap()
  await page.getByText('Kept on this device.').waitFor()
}

/** Returns how many steps there were. */
async function commissionLogger(page: Page): Promise<number> {
  await goTo(page, 'Commission')
  await page.getByLabel('Logger', { exact: true }).selectOption('LG-05')
  await page.getByRole('button', { name: 'Begin commissioning LG-05' }).tap()
  const steps = page.locator('details.field-step')
  const count = await steps.count()
  expect(count).toBeGreaterThan(12)
  for (let at = 0; at < count; at++) {
    const step = steps.nth(at)
    await step.locator('summary').tap()
    if (at === 0) {
      await step.getByLabel(/Found ahead of UTC/).fill('41')
      await step.getByLabel(/Days since/).fill('1')
      await step.getByLabel(/Left ahead of UTC/).fill('0')
      await step.getByText(/It drifts 41.0 s a day/).waitFor()
      await step.getByRole('button', { name: 'Done', exact: true }).tap()
      await expect.poll(() => step.getAttribute('data-standing')).toBe('done')
    } else {
      await step.getByLabel('Skipped because').fill('Looked at in May, nothing was changed since.')
      await step.getByRole('button', { name: 'Skip this step for that reason' }).tap()
      await expect.poll(() => step.getAttribute('data-standing')).toBe('skipped')
    }
    await step.locator('summary').tap()
  }
  await page.getByRole('button', { name: /^Sign: LG-05/ }).tap()
  await page.getByText('Signed by Field engineer.').waitFor()
  return count
}
