import { DuckDBInstance } from '@duckdb/node-api'
import type { SliceList } from '#contract/slice-list.ts'
import { openChromium } from '../support/open-chromium.ts'
import { startServer } from '../support/start-server.ts'
import { type Measurement, quantile } from './measurement.ts'

const size = { width: 1920, height: 1080 }

/** First colour and clock steps of the sample site in a real Chromium with software GL. */
export async function measureBrowser(): Promise<Measurement[]> {
  const server = await startServer('.cache/bench/data')
  const browser = await openChromium()
  try {
    const first = await firstColour(browser, server.address)
    const steps = await clockSteps(browser, server.address)
    const given = steps.map((step) => step.givenMs)
    const drawn = steps.map((step) => step.drawnMs)
    const peer = await sameQuestionOnServer(server.address)
    const peerName = "the server's DuckDB answering the same question from the same slices"
    return [
      {
        name: 'first colour: navigation to every point coloured, engine not needed',
        ours: first.colouredMs,
        unit: 'ms',
        peer: { name: "the same page's first contentful paint", value: first.paintMs },
        goal: 'reported',
      },
      {
        name: 'critical path before first colour, compressed',
        ours: first.bytes / 1000,
        unit: 'kB',
        peer: null,
        goal: 'under 800',
      },
      {
        name: 'clock step: query, states, every point given to the GPU, 95th percentile',
        ours: quantile(given, 0.95),
        unit: 'ms',
        peer: { name: `${peerName}, 95th percentile`, value: quantile(peer, 0.95) },
        goal: 'under 60',
      },
      {
        name: 'clock step to the drawn frame, software GL on the same cores, 95th percentile',
        ours: quantile(drawn, 0.95),
        unit: 'ms',
        peer: { name: `${peerName}, 95th percentile`, value: quantile(peer, 0.95) },
        goal: 'under 60 with a GPU',
      },
      {
        name: 'clock step to the drawn frame, software GL on the same cores, median',
        ours: quantile(drawn, 0.5),
        unit: 'ms',
        peer: { name: `${peerName}, median`, value: quantile(peer, 0.5) },
        goal: 'reported',
      },
    ]
  } finally {
    await browser.close()
    await server.stop()
  }
}

type Chromium = Awaited<ReturnType<typeof openChromium>>

async function firstColour(browser: Chromium, address: string) {
  const page = await (await browser.newContext({ viewport: size })).newPage()
  await page.goto(address)
  const colouredMs = await markOf(page, 'plan-coloured')
  const paintMs = await page.evaluate(
    () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN,
  )
  const bytes = await page.evaluate(
    (until) =>
      performance
        .getEntries()
        .filter((entry) => entry instanceof PerformanceResourceTiming)
        .filter((entry) => entry.responseEnd <= until)
        .reduce((sum, entry) => sum + entry.encodedBodySize, 0),
    colouredMs,
  )
  await page.context().close()
  return { colouredMs, paintMs, bytes }
}

/** Milliseconds from a clock step by key to the frame in which every point was drawn anew. */
async function clockSteps(browser: Chromium, address: string): Promise<Step[]> {
  const page = await (await browser.newContext({ viewport: size })).newPage()
  await page.goto(`${address}/?at=2027-07-01T12:00:00Z`)
  await markOf(page, 'plan-drawn')
  // The engine lays out its months in the background first; that is not a step.
  await page.waitForTimeout(12_000)
  const times: Step[] = []
  for (let step = 0; step < 80; step++) {
    // Steps as a person makes them: software GL is still busy with the frames after the last one.
    await page.waitForTimeout(250)
    await page.evaluate(() => performance.clearMarks())
    await page.keyboard.press(step % 4 === 3 ? 'L' : 'l')
    times.push(await timeOfStep(page))
  }
  await page.context().close()
  return times
}

interface Step {
  /** To the moment at which every point's new state was given to the graphics library. */
  readonly givenMs: number
  /** To the frame that shows it; software GL draws on the same two cores. */
  readonly drawnMs: number
}

async function timeOfStep(page: Awaited<ReturnType<Chromium['newPage']>>): Promise<Step> {
  for (;;) {
    const time = await page.evaluate(() => {
      const asked = performance.getEntriesByName('clock-step').at(-1) as PerformanceMark | undefined
      const of = (name: string) =>
        (performance.getEntriesByName(name) as PerformanceMark[]).find(
          (mark) => mark.detail === asked?.detail,
        )
      const [given, drawn] = [of('plan-given'), of('plan-drawn')]
      return asked && given && drawn
        ? { givenMs: given.startTime - asked.startTime, drawnMs: drawn.startTime - asked.startTime }
        : null
    })
    if (time !== null) return time
    await page.waitForTimeout(5)
  }
}

async function markOf(page: Awaited<ReturnType<Chromium['newPage']>>, name: string): Promise<number> {
  for (;;) {
    const at = await page.evaluate((mark) => performance.getEntriesByName(mark)[0]?.startTime ?? null, name)
    if (at !== null) return at
    await page.waitForTimeout(20)
  }
}

/** The peer: last value of every series at an instant, from hour and day slices, in this process's DuckDB. */
async function sameQuestionOnServer(address: string): Promise<number[]> {
  const site = 'skarrow-quay'
  const list = (await (await fetch(`${address}/api/sites/${site}/slices`)).json()) as SliceList
  const connection = await (await DuckDBInstance.create(':memory:')).connect()
  const names: string[] = []
  for (const slice of list.slices.filter((one) => one.resolution !== 'raw')) {
    const alias = `s${names.length}`
    await connection.run(
      `attach '.cache/bench/data/slices/${site}/${slice.url.split('/').at(-1)}' as ${alias} (read_only)`,
    )
    names.push(`select series, last, last_at from ${alias}.rollup`)
  }
  await connection.run(`create temp table bucket as ${names.join(' union all ')}`)
  const times: number[] = []
  for (let step = 0; step < 70; step++) {
    const at = Date.UTC(2027, 6, 1, 12) + step * 86_400_000
    const begun = performance.now()
    await connection.runAndReadAll(
      `select series, arg_max(last, last_at), max(last_at) from bucket where last_at <= make_timestamp(${at * 1000}) group by series`,
    )
    times.push(performance.now() - begun)
  }
  connection.closeSync()
  return times
}
