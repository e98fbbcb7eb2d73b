import { readdir, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { RawAnswer } from '#contract/raw-readings.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Standing } from '#domain/what-if/apply-sandbox.ts'
import { compareLevels } from '#domain/what-if/compare-levels.ts'
import { compareSeries } from '#domain/what-if/compare-series.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { sandboxDrafts } from '#domain/what-if/sandbox-drafts.ts'
import { unpackReadings } from '#domain/what-if/unpack-readings.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { tryLevels } from '../../../api/levels/try-levels.ts'
import { valuesOfStore } from '../../../api/levels/values-of-store.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import { programme } from '../../../sample-site/models/programme.ts'
import { openSampleStore, type SampleStore } from '../../support/open-sample-store.ts'

const site = 'skarrow-quay'
const path = `/api/sites/${site}/raw`
const dayMs = 86_400_000

let sample: SampleStore
let model: SiteModel
let app: ReturnType<typeof createApp>

beforeAll(async () => {
  sample = await openSampleStore()
  const { store, folder } = sample
  const found = await store.getSite(site)
  if (!found) throw new Error('no sample site')
  model = found
  const now = () => model.facts.presentEpochMs ?? 0
  app = createApp({
    store,
    publisher: createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} }),
    intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now }),
    now,
    allowedHosts: ['localhost'],
    ingestTokenSha256: null,
    loopbackOnly: true,
    report: () => {},
  })
})
afterAll(() => sample.close())

const query = (series: readonly string[], from: string, until: string): string =>
  `${path}?${new URLSearchParams([...series.map((id) => ['series', id]), ['from', from], ['until', until]])}`

async function standingOf(series: readonly string[], from: string, until: string) {
  const response = await app.request(query(series, from, until))
  expect(response.status).toBe(200)
  const answer = (await response.json()) as RawAnswer
  const standing: Standing = {
    recipe: answer.recipe,
    readings: unpackReadings(answer.channels, answer.fromEpochMs, answer.recipe),
  }
  const { fromEpochMs, untilEpochMs } = answer
  return {
    standing,
    official: reduceRaw(standing.recipe, standing.readings, fromEpochMs, untilEpochMs),
    tried: (changes: readonly SandboxChange[]) => {
      const run = runSandbox(standing, changes, fromEpochMs, untilEpochMs)
      expect(run.faults).toEqual([])
      return run
    },
    fromEpochMs,
    untilEpochMs,
  }
}

const of = (values: ReadonlyMap<string, ReducedSeries>, id: string): ReducedSeries => {
  const found = values.get(id)
  if (!found) throw new Error(`no values of ${id}`)
  return found
}

/** Mean of what one series reads more than another, at the instants of both, from one instant on and before another. */
function meanApart(
  one: ReducedSeries,
  other: ReducedSeries,
  fromEpochMs: number,
  untilEpochMs: number,
): number {
  const { atEpochMs, difference } = compareSeries(other, one, 60)
  const within = [...difference].filter((value, at) => {
    const instant = atEpochMs[at] ?? 0
    return fromEpochMs <= instant && instant < untilEpochMs && !Number.isNaN(value)
  })
  return within.reduce((sum, value) => sum + value, 0) / within.length
}

describe('PZ-05C, whose transducer drifts by −0.06 kPa a day from 1 June on while its twin PZ-06C does not', () => {
  const [drifting, twin] = ['PZ-05C/pore-pressure', 'PZ-06C/pore-pressure']
  const dated = { series: drifting, fromEpochMs: programme.driftFrom, untilEpochMs: null } as const
  const july = Date.UTC(2027, 6, 12)
  const load = () => standingOf([drifting, twin], '2027-05-20T00:00:00Z', '2027-07-13T00:00:00Z')

  test('officially has left its twin by more than 2 kPa; with the drift taken off they agree as before it', async () => {
    const { official, tried } = await load()
    const before = meanApart(
      of(official, drifting),
      of(official, twin),
      Date.UTC(2027, 4, 20),
      programme.driftFrom,
    )
    const after = meanApart(of(official, drifting), of(official, twin), july, july + dayMs)
    expect(after - before).toBeLessThan(-2)
    const { values } = tried([{ ...dated, kind: 'offset', amount: 0, perDay: 0.06 }])
    for (const day of [10, 20, 30, 41]) {
      const from = programme.driftFrom + day * dayMs
      const apart = meanApart(of(values, drifting), of(values, twin), from, from + dayMs)
      expect(Math.abs(apart - before)).toBeLessThan(0.3)
    }
  })

  test('a zero that makes the last day agree undoes it there and nowhere else: a zero is no drift', async () => {
    const { official, tried } = await load()
    const mean = (series: ReducedSeries) => {
      const within = [...series.value].filter((_, at) => (series.atEpochMs[at] ?? 0) >= july)
      return within.reduce((sum, one) => sum + one, 0) / within.length
    }
    const reads = mean(of(official, twin))
    const { values, recipe } = tried([
      { ...dated, kind: 'zero', zero: { by: 'mean', fromEpochMs: july, untilEpochMs: july + dayMs }, reads },
    ])
    expect(meanApart(of(values, drifting), of(values, twin), july, july + dayMs)).toBeCloseTo(0, 1)
    const early = programme.driftFrom
    expect(meanApart(of(values, drifting), of(values, twin), early, early + dayMs)).toBeGreaterThan(2)
    const drafts = sandboxDrafts((await load()).standing.recipe, recipe, [
      { ...dated, kind: 'zero', zero: { by: 'mean', fromEpochMs: july, untilEpochMs: july + dayMs }, reads },
    ])
    expect(drafts).toMatchObject([
      { kind: 'calibration', subject: drifting, fromEpochMs: programme.driftFrom, untilEpochMs: null },
    ])
    expect(Object.keys(drafts[0]?.new ?? {})).toContain('6.value')
    expect(Object.keys(drafts[0]?.old ?? {})).not.toContain('6.value')
  })
})

describe('IP-02, whose leads of A and B were exchanged until 11 March', () => {
  const putRight = Date.UTC(2027, 2, 11, 10, 30)
  const change = {
    kind: 'wiring',
    series: 'IP-02-*/inclination-a',
    readsAs: 'IP-02-*/inclination-b',
    exchanged: true,
    fromEpochMs: 0,
    untilEpochMs: putRight,
  } as const
  const load = () =>
    standingOf(
      [
        'IP-02/deflection',
        ...[...Array(11).keys()].map((at) => `IP-02-${String(at + 1).padStart(2, '0')}/inclination-b`),
      ],
      '2027-02-20T00:00:00Z',
      '2027-03-20T00:00:00Z',
    )

  test('exchanged once more shows what was read before it was found, and nothing else after', async () => {
    const { official, tried } = await load()
    const { values } = tried([change])
    const { atEpochMs, difference } = compareSeries(
      of(official, 'IP-02/deflection'),
      of(values, 'IP-02/deflection'),
      60,
    )
    const split = atEpochMs.findIndex((at) => at >= putRight)
    expect(split).toBeGreaterThan(100)
    expect(difference.slice(0, split).filter((one) => Math.abs(one) > 0.05).length).toBeGreaterThan(split / 2)
    expect(difference.slice(split).every((one) => one === 0)).toBe(true)
  })

  test('exchanged twice is as it was', async () => {
    const { official, tried } = await load()
    const { values, recipe } = tried([change, change])
    for (const [id, series] of official) expect(values.get(id), id).toEqual(series)
    expect(sandboxDrafts((await load()).standing.recipe, recipe, [change, change])).toEqual([])
  })
})

test('levels are reached by the official values as the server has them reached', async () => {
  const asked = ['PZ-05C/pore-pressure', 'SP-31/settlement', 'IP-02/deflection', 'ST-05/force', 'TL-11/tilt']
  const { official, fromEpochMs, untilEpochMs } = await standingOf(
    asked,
    '2027-06-01T00:00:00Z',
    '2027-08-20T00:00:00Z',
  )
  const own = model.triggerLevels.filter(
    (level) => asked.includes(level.series) && watchedBy(level) !== 'silence',
  )
  const levels = own.filter((level) => membersOf(level).length === 0)
  const { levels: compared } = compareLevels({
    levels,
    stages: model.stages,
    series: new Set(asked),
    official,
    sandbox: official,
    fromEpochMs,
    asOfEpochMs: untilEpochMs,
  })
  const { present } = await tryLevels({
    valuesOf: valuesOfStore(sample.store),
    model,
    changes: levels.map((before) => ({ kind: 'end', id: before.id, atEpochMs: untilEpochMs, before })),
    fromEpochMs,
    presentEpochMs: untilEpochMs,
  })
  const told = new Map(present.map((one) => [one.level, one]))
  expect(compared.length).toBeGreaterThan(5)
  for (const { level, official: episodes } of compared) {
    const server = told.get(level.id)
    expect(episodes.length, level.id).toBe(server?.raised)
    // It tells the last ones alone, those too that never stood long enough.
    const last = (server?.episodes ?? []).filter(({ heldAtEpochMs }) => heldAtEpochMs !== null).toReversed()
    expect(episodes.slice(episodes.length - last.length), level.id).toEqual(last)
  }
  expect(compared.some(({ official: episodes }) => episodes.length > 0)).toBe(true)
})

describe(`GET ${path}`, () => {
  const good = query(['PZ-05C/pore-pressure'], '2027-06-01T00:00:00Z', '2027-06-08T00:00:00Z')

  test('writes nothing: the store and every file are as they were', async () => {
    const { store, folder } = sample
    const seen = async () => ({
      revision: await store.revision(site),
      model: JSON.stringify(await store.getSite(site)),
      files: await Promise.all(
        (await readdir(folder, { recursive: true })).toSorted().map(async (name) => {
          const { size, mtimeMs } = await stat(join(folder, name))
          return [name, size, mtimeMs]
        }),
      ),
    })
    const before = await seen()
    expect((await app.request(good)).status).toBe(200)
    expect(
      (await app.request(query(['IP-02/deflection'], '2027-06-01T00:00:00Z', '2027-06-08T00:00:00Z'))).status,
    ).toBe(200)
    expect(await seen()).toEqual(before)
  })

  test('answers 304 to its ETag without reading anything', async () => {
    const etag = (await app.request(good)).headers.get('etag') ?? ''
    const again = await app.request(good, { headers: { 'if-none-match': etag } })
    expect([again.status, await again.text()]).toEqual([304, ''])
  })

  test.each([
    [query([], '2027-06-01T00:00:00Z', '2027-06-08T00:00:00Z'), 400, 'Give series'],
    [query(['PZ-05C/pore-pressure'], '2027-06-08T00:00:00Z', '2027-06-01T00:00:00Z'), 400, 'Give series'],
    [query(['PZ-05C/pore-pressure'], '2025-06-08T00:00:00Z', '2027-06-01T00:00:00Z'), 400, '400 days'],
    [
      query(['PZ-99/pore-pressure'], '2027-06-01T00:00:00Z', '2027-06-08T00:00:00Z'),
      404,
      'PZ-99/pore-pressure',
    ],
    [
      query(
        Array.from({ length: 251 }, (_, at) => `SP-${at}/settlement`),
        '2027-06-01T00:00:00Z',
        '2027-06-08T00:00:00Z',
      ),
      400,
      '250',
    ],
  ])('refuses question %# in words', async (asked, status, words) => {
    const response = await app.request(asked)
    expect(response.status).toBe(status)
    expect(((await response.json()) as { detail: string }).detail).toContain(words)
  })
})
