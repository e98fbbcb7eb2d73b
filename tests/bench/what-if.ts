import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import type { Page } from 'playwright-core'
import type { SiteDocument } from '#contract/site-document.ts'
import type { SliceList } from '#contract/slice-list.ts'
import { openChromium } from '../support/open-chromium.ts'
import { startServer } from '../support/start-server.ts'
import { type Measurement, quantile } from './measurement.ts'

const site = 'skarrow-quay'
const rounds = 20
const size = { width: 1920, height: 1080 }

/** How soon the sandbox shows what a number that is typed makes, with raw readings there and a warm engine. */
export async function measureWhatIf(dataFolder = '.cache/bench/data'): Promise<Measurement[]> {
  const server = await startServer(dataFolder)
  const browser = await openChromium()
  try {
    const page = await (await browser.newContext({ viewport: size })).newPage()
    const at = '2027-07-12T00:00:00Z'
    const point = 'PZ-05C/pore-pressure'
    const asked = (selected: string, change: string) =>
      `${server.address}/?${new URLSearchParams({ sheet: 'what-if', at, selected: `point:${selected}`, whatif: `90d;${change}` })}`
    await page.goto(asked(point, `offset,${point},2027-06-01T00:00:00Z,,1,0.06`))
    const ofPoint = await timesOf(page, 'what-if-drawn')
    await page.goto(asked('SP-31/settlement', 'offset,*/settlement,2027-06-01T00:00:00Z,,1,0'))
    const ofSurface = await timesOf(page, 'what-if-surface-drawn')
    const peer = await historyOnServer(server.address, dataFolder, point)
    const name =
      "the server's DuckDB reading the official history of one point from raw slices, 95th percentile"
    const against = { name, value: quantile(peer, 0.95) }
    return [
      {
        name: 'what-if over three months of one point, number typed to drawn history, levels and table, 95th percentile',
        ours: quantile(ofPoint, 0.95),
        unit: 'ms',
        peer: against,
        goal: 'under 150',
      },
      {
        name: 'what-if over the settlement surface of 60 points, number typed to three drawn surfaces, 95th percentile',
        ours: quantile(ofSurface, 0.95),
        unit: 'ms',
        peer: against,
        goal: 'under 500',
      },
    ]
  } finally {
    await browser.close()
    await server.stop()
  }
}

/** Milliseconds from a number that is typed to the mark of what it makes. */
async function timesOf(page: Page, mark: string): Promise<number[]> {
  await waitFor(page, mark, 0)
  // The plan and the engine lay out their months in the background first.
  await page.waitForTimeout(15_000)
  const field = page.getByLabel('Added, ')
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    await page.waitForTimeout(400)
    await page.evaluate(() => performance.clearMarks())
    await field.fill(String(1 + round / 10 + 0.05))
    times.push(await waitFor(page, mark, 1))
  }
  return times
}

/** Waits for a mark after the last asking; its distance from that. */
async function waitFor(page: Page, mark: string, atLeast: number): Promise<number> {
  for (;;) {
    const found = await page.evaluate((name) => {
      const of = (one: string) => performance.getEntriesByName(one).at(-1)?.startTime
      const [asked, drawn] = [of('what-if-asked'), of(name)]
      return { asked: asked ?? 0, drawn: drawn ?? Number.NaN }
    }, mark)
    if (found.drawn > found.asked && found.asked >= atLeast) return found.drawn - found.asked
    await page.waitForTimeout(5)
  }
}

async function historyOnServer(address: string, dataFolder: string, series: string): Promise<number[]> {
  const document = (await (await fetch(`${address}/api/sites/${site}`)).json()) as SiteDocument
  const number = document.series.find(({ id }) => id === series)?.series
  const list = (await (await fetch(`${address}/api/sites/${site}/slices`)).json()) as SliceList
  const connection = await (await DuckDBInstance.create(':memory:')).connect()
  const months = list.slices.filter(
    ({ resolution, month }) => resolution === 'raw' && month >= '2027-04' && month <= '2027-07',
  )
  const parts: string[] = []
  for (const slice of months) {
    const file = join(dataFolder, 'slices', site, slice.url.split('/').at(-1) ?? '')
    await connection.run(`attach '${file}' as s${parts.length} (read_only)`)
    parts.push(`select series, "at", value from s${parts.length}.value`)
  }
  const times: number[] = []
  for (let round = 0; round < rounds; round++) {
    const begun = performance.now()
    await connection.runAndReadAll(
      `select "at", value from (${parts.join(' union all ')}) where series = ${number} order by "at"`,
    )
    times.push(performance.now() - begun)
  }
  return times
}
