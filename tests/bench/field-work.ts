import { cpSync, rmSync } from 'node:fs'
import type { BrowserContext, Page } from 'playwright-core'
import { openChromium } from '../support/open-chromium.ts'
import { startServer } from '../support/start-server.ts'
import { type Measurement, quantile } from './measurement.ts'

const size = { width: 820, height: 1180 }
const [notes, photos] = [1000, 200]

/** What a tablet does without a network, in a real Chromium: cold start, opening what is nearest, the outbox over a line that breaks. */
export async function measureFieldWork(): Promise<Measurement[]> {
  // A copy: what is written here would keep the sample from being renewed.
  const folder = '.cache/bench/field-data'
  rmSync(folder, { recursive: true, force: true })
  cpSync('.cache/bench/data', folder, { recursive: true })
  const server = await startServer(folder)
  const browser = await openChromium()
  try {
    const device = await browser.newContext({ viewport: size, hasTouch: true, isMobile: true })
    const online = await coldStart(device, server.address)
    const keptBytes = await keepSite(device, server.address)
    await device.setOffline(true)
    const offline = await coldStart(device, server.address)
    const opened = await openNearest(offline.page)
    await writeOutbox(offline.page)
    const sending = await sendOverBreakingLine(device, offline.page, server.address)
    return [
      {
        name: 'cold start without a network, navigation to every point coloured',
        ours: offline.ms,
        unit: 'ms',
        peer: { name: 'the same with the network and an empty cache', value: online.ms },
        goal: 'under 2,000',
      },
      {
        name: 'kept on a device for the sample site, page and hourly and daily values',
        ours: keptBytes / 1e6,
        unit: 'MB',
        peer: null,
        goal: 'under 60',
      },
      {
        name: 'opening an instrument of the round, press to its name in the strip, 95th percentile',
        ours: quantile(opened, 0.95),
        unit: 'ms',
        peer: null,
        goal: 'under 100',
      },
      {
        name: `outbox of ${notes.toLocaleString('en-GB')} entries and ${photos} photos, the line broken every 3 s: lost or doubled`,
        ours: sending.wrong,
        unit: 'entries and photos',
        peer: null,
        goal: 'none',
      },
      {
        name: 'the same, until all of it was there',
        ours: sending.ms / 1000,
        unit: 's',
        peer: null,
        goal: 'reported',
      },
    ]
  } finally {
    await browser.close()
    await server.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function coldStart(device: BrowserContext, address: string): Promise<{ page: Page; ms: number }> {
  const page = await device.newPage()
  await page.goto(`${address}/?sheet=field`)
  for (;;) {
    const ms = await page.evaluate(() => performance.getEntriesByName('plan-coloured')[0]?.startTime ?? null)
    if (ms !== null) return { page, ms }
    await page.waitForTimeout(10)
  }
}

async function keepSite(device: BrowserContext, address: string): Promise<number> {
  const page = await device.newPage()
  await page.goto(`${address}/?sheet=field&field=device`)
  await page.getByRole('button', { name: 'Keep this site on this device' }).click({ timeout: 60_000 })
  await page.getByText('The page opens without a network').waitFor({ timeout: 120_000 })
  const bytes = await page.evaluate(async () => {
    let sum = 0
    for (const name of await caches.keys()) {
      const store = await caches.open(name)
      for (const request of await store.keys())
        sum += (await (await store.match(request))?.arrayBuffer())?.byteLength ?? 0
    }
    return sum
  })
  for (const one of device.pages()) await one.close()
  return bytes
}

/** From the press in the page itself to the frame that names the instrument. */
async function openNearest(page: Page): Promise<number[]> {
  await page.getByLabel('Due within').selectOption('7')
  await page.locator('.round-place').nth(10).waitFor({ timeout: 60_000 })
  const times: number[] = []
  for (let at = 0; at < 10; at++)
    times.push(
      await page.evaluate(async (place) => {
        const button = document.querySelectorAll<HTMLElement>('.round-place')[place]
        const name = button?.querySelector('strong')?.textContent ?? ''
        const begun = performance.now()
        button?.click()
        while (!document.querySelector('.selection')?.textContent?.includes(name))
          await new Promise((next) => requestAnimationFrame(next))
        return performance.now() - begun
      }, at),
    )
  return times
}

/** Written by the page's own store, in its own shape, a note at a time. */
async function writeOutbox(page: Page): Promise<void> {
  await page.evaluate(
    async ([count, withPhoto]) => {
      const database = await new Promise<IDBDatabase>((done, failed) => {
        const opening = indexedDB.open('stillground-field')
        opening.onsuccess = () => done(opening.result)
        opening.onerror = () => failed(opening.error)
      })
      const device = crypto.randomUUID()
      for (let i = 0; i < count; i++) {
        const attachments = []
        if (i < withPhoto) {
          const bytes = new Uint8Array(300_000)
          crypto.getRandomValues(bytes.subarray(0, 60_000))
          const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
          const sha256 = [...digest].map((byte) => byte.toString(16).padStart(2, '0')).join('')
          attachments.push({ sha256, bytes: bytes.length, mediaType: 'image/jpeg', name: `${i}.jpg` })
          await put(database, 'attachments', {
            sha256,
            site: 'skarrow-quay',
            mediaType: 'image/jpeg',
            bytes: bytes.buffer,
            delivery: 'waiting',
            refused: null,
            tried: false,
          })
        }
        const entry = {
          id: crypto.randomUUID(),
          site: 'skarrow-quay',
          follows: [],
          body: { kind: 'note', about: null, atEpochMs: Date.UTC(2027, 9, 31) + i * 1000, text: `note ${i}` },
          author: 'Field engineer',
          device,
          sequence: i + 1,
          writtenAtEpochMs: Date.now(),
          clockAheadMs: null,
          position: { eastingMetres: 500_030, northingMetres: 309_990, accuracyMetres: 5 },
          attachments,
        }
        await put(database, 'own', { entry, delivery: 'waiting', problem: null, deliveredAtEpochMs: null })
      }
      database.close()

      function put(into: IDBDatabase, store: string, value: unknown): Promise<void> {
        return new Promise((done, failed) => {
          const transaction = into.transaction(store, 'readwrite')
          transaction.objectStore(store).put(value)
          transaction.oncomplete = () => done()
          transaction.onerror = () => failed(transaction.error)
        })
      }
    },
    [notes, photos] as const,
  )
}

async function sendOverBreakingLine(
  device: BrowserContext,
  page: Page,
  address: string,
): Promise<{ wrong: number; ms: number }> {
  const begun = performance.now()
  let on = true
  await device.setOffline(false)
  const breaking = setInterval(() => {
    on = !on
    void device.setOffline(!on)
  }, 3000)
  try {
    for (;;) {
      const { entries, missing } = await arrived(address)
      if (entries.length >= notes && missing === 0) {
        const distinct = new Set(entries).size
        return {
          wrong: Math.abs(distinct - notes) + (entries.length - distinct),
          ms: performance.now() - begun,
        }
      }
      if (performance.now() - begun > 600_000)
        return { wrong: notes - entries.length + missing, ms: Number.NaN }
      await page.evaluate(() => dispatchEvent(new Event('online')))
      await new Promise((done) => setTimeout(done, 500))
    }
  } finally {
    clearInterval(breaking)
  }
}

async function arrived(address: string): Promise<{ entries: string[]; missing: number }> {
  const answer = await fetch(`${address}/api/sites/skarrow-quay/field-entries?after=0`)
  const { entries } = (await answer.json()) as {
    entries: { entry: { body: { text?: string } }; missingAttachments: string[] }[]
  }
  return {
    entries: entries.flatMap(({ entry }) => entry.body.text ?? []),
    missing: entries.reduce((sum, { missingAttachments }) => sum + missingAttachments.length, 0),
  }
}
