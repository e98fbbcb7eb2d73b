import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CorrectionProposals } from '#contract/correction-proposals.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { RemarkedTrail } from '#contract/trail.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { loadSiteFolder, readSiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { SliceIndex } from '../../../api/slices/slice-index.ts'
import { type CorrectionsSite, openCorrectionsSite } from '../../support/open-corrections-site.ts'
import { takeReadings } from '../../support/take-readings.ts'

const site = 'skarrow-quay'
const path = `/api/sites/${site}`
const [tip, twin] = ['PZ-05C/pore-pressure', 'PZ-06C/pore-pressure']
const warmth = 'PZ-05C/temperature'
const [minuteMs, hourMs, dayMs] = [60_000, 3_600_000, 86_400_000]
const from = Date.UTC(2027, 5, 20)
const until = Date.UTC(2027, 6, 12)
/** The stamp from which the logger's clock stood 45 minutes ahead; its first reading belongs to the month before. */
const begins = Date.UTC(2027, 6, 1)
const ends = begins + 2 * dayMs

let open: CorrectionsSite
beforeAll(async () => {
  open = await openCorrectionsSite({
    from,
    until,
    series: [tip, twin],
    rawOf: {
      [tip]: (swing) => 361 + swing,
      [twin]: (swing) => 359 - swing,
      [warmth]: (swing) => 5200 + 50 * swing,
      'PZ-06C/temperature': (swing) => 5300 - 50 * swing,
      'BA-01/barometric-pressure': (swing) => 3.5 + swing / 20,
    },
  })
})
afterAll(() => open.close())

const clock = (change: Partial<SandboxChange & { kind: 'clock' }> = {}): SandboxChange => ({
  kind: 'clock',
  series: tip,
  fromEpochMs: begins,
  untilEpochMs: ends,
  offsetSeconds: -45 * 60,
  driftSecondsPerDay: 0,
  ...change,
})
const trailAt = async (series: string, at: number): Promise<RemarkedTrail> => {
  const query = new URLSearchParams({ series, at: new Date(at).toISOString() })
  return (await open.app.request(`${path}/trail?${query}`)).json()
}
const propose = (change: object) =>
  open.post('/correction-proposals', {
    changes: [
      {
        kind: 'clock',
        series: tip,
        logger: 'LG-05',
        fromEpochMs: begins,
        untilEpochMs: ends,
        was: { addedSeconds: 0, addedSecondsPerDay: 0 },
        clock: { addedSeconds: -2700, addedSecondsPerDay: 0 },
        ...change,
      },
    ],
    sandbox: '?sheet=what-if',
    reason: 'held against the time signal',
    author: 'Ada Marsh',
  })
const codes = (body: { issues?: readonly { code: string }[] }) => (body.issues ?? []).map(({ code }) => code)
const indexNow = async (folder: string): Promise<SliceIndex> =>
  JSON.parse(await readFile(join(folder, 'slices', site, 'index.json'), 'utf8'))

describe('before a clock is recorded', () => {
  test('one under which readings would change their order is refused in words', async () => {
    const early = await propose({ clock: { addedSeconds: -3600, addedSecondsPerDay: 0 } })
    expect([early.status, codes(early.body)]).toEqual([400, ['readings-reordered']])
    expect(early.body.issues[0].message).toContain('stamped 2027-07-01T00:00:00Z')
    // The wrong sign: readings of the hour would stand after they came.
    const late = await propose({ clock: { addedSeconds: 2700, addedSecondsPerDay: 0 } })
    expect([late.status, codes(late.body)]).toEqual([400, ['readings-ahead-of-receipt']])
  })

  test('one that is on record already, of another logger, or tried on what is not on record, is refused', async () => {
    const asSent = { addedSeconds: 0, addedSecondsPerDay: 0 }
    expect(codes((await propose({ clock: asSent })).body)).toEqual(['changes-nothing'])
    expect(codes((await propose({ series: twin })).body)).toEqual(['not-its-logger'])
    expect(codes((await propose({ was: { ...asSent, addedSeconds: 9 } })).body)).toEqual(['clock-overtaken'])
    for (const far of [{ addedSeconds: 1e9 }, { addedSecondsPerDay: 86_400 }])
      expect((await propose({ clock: { ...asSent, ...far } })).status).toBe(400)
  })

  test('one of a logger that reads nothing stands on record, and everything is published and told as before', async () => {
    const model = await open.store.getSite(site)
    const spare = model?.loggers[0]
    if (!model || !spare) throw new Error('no site')
    const signature = { author: 'test', reason: 'test', atEpochMs: 0 }
    const row = { version: 1, addedSeconds: 9, addedSecondsPerDay: 0, author: 'A', reason: 'on the shelf' }
    await open.store.putSite(
      {
        ...model,
        loggers: [...model.loggers, { ...spare, id: 'LG-99', serial: 'spare' }],
        loggerClocks: [{ ...row, logger: 'LG-99', validFrom: from }],
      },
      signature,
    )
    await takeReadings(
      open.store,
      site,
      [{ sensor: 'PZ-06C/temperature', atEpochMs: from - hourMs, raw: 5300 }],
      until,
    )
    expect((await open.publisher.publish(site)).months).toBeGreaterThan(0)
    expect((await trailAt(tip, begins)).value).not.toBeNull()
    await open.store.putSite(model, signature)
    await open.publisher.publish(site)
  })

  test('a verdict on readings that would move stands in its way until it is taken back', async () => {
    const verdict = {
      series: warmth,
      fromEpochMs: begins + hourMs,
      untilEpochMs: begins + 2 * hourMs,
      verdict: 'rejected',
      reason: 'Cable was pulled',
      alternatives: 'none',
      author: 'Cy Hale',
    }
    const found = await open.post('/verdicts', verdict)
    expect(found.status).toBe(201)
    const refused = await propose({})
    expect(codes(refused.body)).toEqual(['verdict-on-moved-readings'])
    expect(refused.body.issues[0].message).toContain(`${found.body.id} of ${warmth}`)
    const withdrawn = { verdict: found.body.id, reason: 'it was the clock', author: 'Cy Hale' }
    expect((await open.post('/verdicts/withdrawals', withdrawn)).status).toBe(201)
    const taken = await propose({})
    expect(taken.status).toBe(201)
    const back = { reason: 'only tried', author: 'Ada Marsh' }
    expect((await open.post(`/correction-proposals/${taken.body.number}/withdrawal`, back)).status).toBe(200)
  })
})

describe('a clock that was tried, offered and approved', () => {
  let before: ReadonlyMap<string, ReadonlyMap<number, number>>
  const all = async () =>
    new Map(
      await Promise.all([tip, warmth, twin].map(async (one) => [one, await open.published(one)] as const)),
    )

  test('is published as the sandbox showed it, also in the month before; other loggers stay as they are', async () => {
    const approval = (instrument: string, first: number, end: number) =>
      open.post('/approvals', {
        instruments: [instrument],
        fromEpochMs: first,
        untilEpochMs: end,
        statement: 'looked through',
        author: 'Cy Hale',
      })
    expect((await approval('PZ-05', begins, until)).status).toBe(201)
    expect((await approval('PZ-05', from, from + 5 * dayMs)).status).toBe(201)
    expect((await approval('PZ-05', ends + dayMs, until)).status).toBe(201)
    expect((await approval('PZ-06', begins, until)).status).toBe(201)
    before = await all()

    const { values, taken } = await open.correct([clock()])
    const after = await all()
    for (const series of [tip, warmth, twin]) {
      const own = values.get(series)
      const shown = new Map([...(own?.atEpochMs ?? [])].map((at, row) => [at, (own?.value[row] ?? 0) + 0]))
      expect(after.get(series)).toEqual(shown)
    }
    expect(after.get(twin)).toEqual(before.get(twin))
    expect(after.get(warmth)?.size).toBe(before.get(warmth)?.size)
    const put = (at: number) => (at >= begins && at < ends ? at - 45 * minuteMs : at)
    expect([...(after.get(warmth) ?? [])].toSorted(([one], [other]) => one - other)).toEqual(
      [...(before.get(warmth) ?? [])].map(([at, value]) => [put(at), value]),
    )
    expect(after.get(warmth)?.has(begins - 45 * minuteMs)).toBe(true)

    expect(taken.evidence.effects.map(({ series }) => series)).toContain(warmth)
    const effect = taken.evidence.effects.find(({ series }) => series === warmth)
    expect(effect).toMatchObject({
      moved: { readings: 48, mostSeconds: -2700, newlyLate: 0 },
      changed: 0,
      lost: 0,
      gained: 0,
    })

    const document = (await (await open.app.request(path)).json()) as SiteDocument
    expect(
      document.approvals
        .filter(({ approver }) => approver === 'Cy Hale')
        .map(({ instrument, fromEpochMs, changedSince }) => [instrument, fromEpochMs, changedSince]),
    ).toEqual([
      ['PZ-05', begins, true],
      ['PZ-05', from, false],
      ['PZ-05', ends + dayMs, false],
      ['PZ-06', begins, false],
    ])
  })

  test('is told in the trail with the stamp that was sent, and only where it moved something', async () => {
    const moved = await trailAt(tip, begins - 45 * minuteMs)
    const [own] = moved.sources
    expect(moved.atEpochMs).toBe(begins - 45 * minuteMs)
    expect(own?.clockSentence).toMatch(
      /^LG-05 stamped it 2027-07-01T00:00:00Z; 2700 s are taken off, since .*Ada Marsh/,
    )
    // Slices are rounded to the decimals of the series, the trail is not.
    const published = (await open.published(tip)).get(begins - 45 * minuteMs)
    expect(moved.value).toBeCloseTo(published ?? Number.NaN, 1)
    expect((await trailAt(tip, ends + hourMs)).sources[0]?.clockSentence).toBeUndefined()
    expect((await trailAt(twin, begins)).sources[0]?.clockSentence).toBeUndefined()
  })

  test('holds for a reading that comes later, and a folder loaded again does not take it back', async () => {
    const rows = (await open.store.getSite(site))?.loggerClocks ?? []
    expect(rows.map(({ version, validFrom, addedSeconds }) => [version, validFrom, addedSeconds])).toEqual([
      [1, begins, -2700],
      [2, ends, 0],
    ])
    const folder = await readSiteFolder('sample-site')
    if (!folder.ok) throw new Error('no folder')
    await loadSiteFolder(open.store, { ...folder.value, hash: 'again' }, 'test', 1)
    expect((await open.store.getSite(site))?.loggerClocks).toHaveLength(2)

    const stamp = begins + 10 * minuteMs
    await takeReadings(open.store, site, [{ sensor: warmth, atEpochMs: stamp, raw: 5210 }], until)
    await open.publisher.publish(site)
    const found = await open.published(warmth)
    expect(found.has(stamp)).toBe(false)
    expect(found.has(stamp - 45 * minuteMs)).toBe(true)
  })

  test('is published alike from nothing, and nothing is left to publish then', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'clock-again-'))
    const { store } = open
    const publisher = createPublisher({
      store,
      folder: join(folder, 'slices'),
      now: () => until,
      onFailure() {},
    })
    try {
      await publisher.publish(site)
      const hashes = ({ months }: SliceIndex) =>
        Object.entries(months).map(([name, month]) => [
          name,
          month.recipe,
          month.slices.map(({ rows, resolution }) => [resolution, rows]),
          month.latest,
        ])
      const fresh = hashes(await indexNow(folder))
      expect(hashes(await indexNow(open.folder))).toEqual(fresh)
      expect(await publisher.publish(site)).toMatchObject({ months: 0 })
    } finally {
      await publisher.close()
      await rm(folder, { recursive: true, force: true })
    }
  })

  test('is replaced by another that is tried from the stamps as sent; one that waits is then overtaken', async () => {
    const { official, run, offered } = await open.sandbox([
      clock({ offsetSeconds: -600, driftSecondsPerDay: -30 }),
    ])
    expect(offered.changes).toMatchObject([
      { was: { addedSeconds: -2700 }, clock: { addedSeconds: -600, addedSecondsPerDay: -30 } },
    ])
    expect(official.get(warmth)?.atEpochMs).not.toEqual(run.values.get(warmth)?.atEpochMs)
    const waiting = await propose({
      was: { addedSeconds: -2700, addedSecondsPerDay: 0 },
      clock: { addedSeconds: -60, addedSecondsPerDay: 0 },
    })
    expect(waiting.status).toBe(201)
    const { values } = await open.correct([clock({ offsetSeconds: -600, driftSecondsPerDay: -30 })])
    const own = values.get(warmth)
    expect([...(await open.published(warmth)).keys()].toSorted((one, other) => one - other)).toEqual([
      ...(own?.atEpochMs ?? []),
    ])
    // A day after the clock was put right 600 s are 630 s.
    expect((await open.published(warmth)).has(begins + dayMs - 630_000)).toBe(true)
    const list = (await (
      await open.app.request(`${path}/correction-proposals`)
    ).json()) as CorrectionProposals
    expect(list.proposals.find(({ number }) => number === waiting.body.number)?.stale).toHaveLength(1)
    const late = await open.post(`/correction-proposals/${waiting.body.number}/approval`, {
      reason: 'seen',
      author: 'Ben Holm',
    })
    expect([late.status, codes(late.body)]).toEqual([409, ['clock-overtaken']])
  })

  test('is put back to the stamps as sent, and every value stands where it stood', async () => {
    // Over a month's boundary and back: the month before is taken back whole.
    const early = { fromEpochMs: from, untilEpochMs: null }
    await open.correct([clock({ ...early, offsetSeconds: -40 * 86_400 })])
    const first = from - 40 * dayMs
    expect((await open.published(tip)).has(first)).toBe(true)
    await open.correct([clock({ ...early, offsetSeconds: 0 })])
    expect([...(await open.published(warmth)).keys()].filter((at) => at < from)).toEqual([])
    await open.correct([clock({ offsetSeconds: 0 })])
    const after = await all()
    for (const series of [tip, twin]) expect(after.get(series)).toEqual(before.get(series))
  })
})
