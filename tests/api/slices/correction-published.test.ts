import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { CorrectionProposals, CorrectionTaken } from '#contract/correction-proposals.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { compareSeries } from '#domain/what-if/compare-series.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { loadSiteFolder, readSiteFolder } from '../../../api/site-folder.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import type { Store } from '../../../api/store/store.ts'
import { type CorrectionsSite, openCorrectionsSite } from '../../support/open-corrections-site.ts'

const site = 'skarrow-quay'
const path = `/api/sites/${site}`
const [tip, twin] = ['PZ-05C/pore-pressure', 'PZ-06C/pore-pressure']
const air = 'BA-01/barometric-pressure'
const secondAir = 'BA-02/barometric-pressure'
const hourMs = 3_600_000
const from = Date.UTC(2027, 5, 20)
const until = Date.UTC(2027, 6, 12)
const corrected = Date.UTC(2027, 6, 1)

let open: CorrectionsSite
let store: Store
let publisher: Publisher
let app: Hono
let { post, sandbox, published, correct }: CorrectionsSite = {} as CorrectionsSite

beforeAll(async () => {
  open = await openCorrectionsSite({
    from,
    until,
    series: [tip, twin, secondAir],
    rawOf: {
      [tip]: (swing) => 361 + swing / 10,
      [twin]: (swing) => 359 - swing / 10,
      'PZ-05C/temperature': (swing) => 5200 + 50 * swing,
      'PZ-06C/temperature': (swing) => 5300 - 50 * swing,
      [air]: (swing) => 3.5 + swing / 20,
      [secondAir]: (swing) => 3.7 - swing / 20,
    },
  })
  ;({ store, publisher, app, post, sandbox, published, correct } = open)
})
afterAll(() => open.close())

async function isPublishedAs(values: ReadonlyMap<string, ReducedSeries>, series: string): Promise<void> {
  const [own, found] = [values.get(series), await published(series)]
  expect(own?.value.length).toBe((until - from) / hourMs)
  const unlike = [...(own?.atEpochMs ?? [])].filter((at, row) => found.get(at) !== (own?.value[row] ?? 0) + 0)
  expect(unlike).toEqual([])
}

describe('what was tried, offered and approved', () => {
  test('of a zero is published as the sandbox showed it; what was approved there is provisional again', async () => {
    const approval = {
      instruments: ['PZ-05', 'PZ-06'],
      fromEpochMs: corrected,
      untilEpochMs: until,
      statement: 'looked through',
      author: 'Cy Hale',
    }
    expect((await post('/approvals', approval)).status).toBe(201)
    const approvals = async () =>
      ((await (await app.request(path)).json()) as SiteDocument).approvals
        .filter(({ approver }) => approver === 'Cy Hale')
        .map(({ instrument, changedSince }) => [instrument, changedSince])
    expect(await approvals()).toEqual([
      ['PZ-05', false],
      ['PZ-06', false],
    ])
    const [levels, verdicts] = [
      (await store.getSite(site))?.triggerLevels,
      (await store.getSite(site))?.verdicts,
    ]
    const { official, values, taken } = await correct([
      {
        kind: 'zero',
        series: tip,
        fromEpochMs: corrected,
        untilEpochMs: null,
        zero: { by: 'reading', atEpochMs: corrected },
        reads: 12.5,
      },
    ])
    await isPublishedAs(values, tip)
    await isPublishedAs(values, twin)
    // What the approver was told is what the sandbox compares.
    const [before, after] = [official.get(tip), values.get(tip)]
    if (!before || !after) throw new Error('no values of the tip')
    const compared = compareSeries(before, after, 60)
    expect(compared.changed).toBe((until - corrected) / hourMs)
    expect(taken.evidence.effects).toMatchObject([{ series: tip, changed: compared.changed, lost: 0 }])
    expect(taken.evidence.effects[0]?.meanChange).toBeCloseTo(
      ((compared.mean ?? Number.NaN) * compared.count) / compared.changed,
      6,
    )
    expect(await approvals()).toEqual([
      ['PZ-05', true],
      ['PZ-06', false],
    ])
    const model = await store.getSite(site)
    expect([model?.triggerLevels, model?.verdicts]).toEqual([levels, verdicts])
    const list: CalibrationList = await (
      await app.request(`${path}/calibrations?sensor=${encodeURIComponent(tip)}`)
    ).json()
    expect(list.versions.map(({ row }) => [row.id, row.validFrom])).toEqual([
      ['CC-129/1', Date.UTC(2027, 0, 18, 15)],
      ['CC-129/2', corrected],
    ])
    expect(list.versions[0]?.stepRows).toHaveLength(5)
    expect(model?.zeroReadings.filter(({ calibration }) => calibration === 'CC-129/2')).toMatchObject([
      { at: corrected, author: 'Ada Marsh' },
    ])
  })

  test('of another share of the air for a week is published for that week alone', async () => {
    const weekMs = 7 * 24 * hourMs
    const { official, values } = await correct([
      {
        kind: 'barometer',
        series: tip,
        fromEpochMs: corrected,
        untilEpochMs: corrected + weekMs,
        barometer: air,
        share: 0.7,
        referenceKpa: null,
        offsetKpa: 0,
      },
    ])
    await isPublishedAs(values, tip)
    const found = await published(tip)
    const own = official.get(tip)
    const later = [...(own?.atEpochMs ?? [])].flatMap((at, row) =>
      at >= corrected + weekMs ? [[found.get(at), own?.value[row]]] : [],
    )
    expect(later.length).toBeGreaterThan(90)
    expect(later.every(([one, other]) => one === other)).toBe(true)
  })

  test('of another barometer for two days is published for these two days alone, and its trail says so', async () => {
    const begins = corrected + 3 * 24 * hourMs
    const ends = begins + 48 * hourMs
    const before = await published(tip)
    const { values } = await correct([
      {
        kind: 'barometer',
        series: tip,
        fromEpochMs: begins,
        untilEpochMs: ends,
        barometer: secondAir,
        share: 0.7,
        referenceKpa: null,
        offsetKpa: 0,
      },
    ])
    await isPublishedAs(values, tip)
    await isPublishedAs(values, twin)
    const after = await published(tip)
    expect([...after].filter(([at, value]) => before.get(at) !== value).map(([at]) => at)).toEqual(
      Array.from({ length: 48 }, (_, hour) => begins + hour * hourMs),
    )
    const rows = ((await store.getSite(site))?.sensorBarometers ?? []).filter(({ sensor }) => sensor === tip)
    expect(rows.map(({ version, validFrom, barometer }) => [version, validFrom, barometer])).toEqual([
      [1, begins, secondAir],
      [2, ends, air],
    ])
    // A folder that does not know them does not take them back.
    const folder = await readSiteFolder('sample-site')
    if (!folder.ok) throw new Error('no folder')
    await loadSiteFolder(store, { ...folder.value, hash: 'again' }, 'test', 1)
    expect((await store.getSite(site))?.sensorBarometers).toHaveLength(2)
    await publisher.publish(site)
    expect(await published(tip)).toEqual(after)
  })

  test('of a zero by the mean of a day is published, and the readings of that day are its zero readings', async () => {
    const stretch = { fromEpochMs: corrected, untilEpochMs: corrected + 24 * hourMs }
    const zeros = async () =>
      ((await store.getSite(site))?.zeroReadings ?? []).filter(({ calibration }) =>
        calibration.startsWith('CC-135/'),
      )
    const version = (await zeros()).length
    const { values } = await correct([
      {
        kind: 'zero',
        series: twin,
        fromEpochMs: corrected,
        untilEpochMs: null,
        zero: { by: 'mean', ...stretch },
        reads: 20,
      },
    ])
    await isPublishedAs(values, twin)
    const taken = (await zeros()).slice(version)
    expect(taken.map(({ at }) => at)).toEqual(
      Array.from({ length: 24 }, (_, hour) => corrected + hour * hourMs),
    )
    expect(taken[0]).toMatchObject({ calibration: 'CC-135/2', author: 'Ada Marsh' })
    expect(
      taken.every(({ temperatureDegC, barometerKpa }) => temperatureDegC !== null && barometerKpa !== null),
    ).toBe(true)
    const list: CalibrationList = await (
      await app.request(`${path}/calibrations?sensor=${encodeURIComponent(twin)}`)
    ).json()
    expect(list.versions.at(-1)?.baselineSentence).toMatch(/24/)
  })

  test('of a zero that the readings on record do not come to is refused', async () => {
    const { offered } = await sandbox([
      {
        kind: 'zero',
        series: twin,
        fromEpochMs: corrected + 48 * hourMs,
        untilEpochMs: null,
        zero: { by: 'reading', atEpochMs: corrected },
        reads: 30,
      },
    ])
    const changes = offered.changes.map((one) =>
      one.kind === 'calibration' && one.zeroFrom ? { ...one, zeroFrom: { ...one.zeroFrom, reads: 31 } } : one,
    )
    const refused = await post('/correction-proposals', {
      changes,
      sandbox: '?sheet=what-if',
      reason: 'tried',
      author: 'Ada Marsh',
    })
    expect(refused.status).toBe(400)
    expect(refused.body.issues).toMatchObject([{ code: 'zero-not-reached', column: 'changes.0' }])
    expect(refused.body.issues[0].message).toContain('would read 30.00 at its zero, and not 31.00')
  })

  test('of exchanged leads is published crosswise from the instant on', async () => {
    const { values } = await correct([
      {
        kind: 'wiring',
        series: tip,
        readsAs: twin,
        exchanged: true,
        fromEpochMs: corrected + 100 * hourMs,
        untilEpochMs: null,
      },
    ])
    await isPublishedAs(values, tip)
    await isPublishedAs(values, twin)
    expect(await store.verifyAudit()).toMatchObject({ firstBreak: null, recordFaultCount: 0 })
  })

  test('of a thermal term that goes on into other chains is published as the sandbox showed it', async () => {
    const thermal: SandboxChange = {
      kind: 'thermal',
      series: tip,
      fromEpochMs: corrected - 3 * 24 * hourMs,
      untilEpochMs: null,
      factorPerDegC: 0.7,
      referenceDegC: 9,
    }
    const held = ((await store.getSite(site))?.calibrations ?? []).filter(({ sensor }) => sensor === tip)
    const { run, offered } = await sandbox([thermal])
    expect(run.cautions.map(({ column }) => column)).toEqual(['0.until'])
    expect(offered.changes.length).toBeGreaterThan(2)
    expect(held.length).toBeGreaterThan(2)
    const { values } = await correct([thermal])
    await isPublishedAs(values, tip)
    await isPublishedAs(values, twin)
  })

  test('of a zero is not approved once its barometer is another, and the list says why', async () => {
    const begins = corrected + 200 * hourMs
    const offered = async (change: SandboxChange) => {
      const { offered } = await sandbox([change])
      const changes = offered.changes.filter(
        ({ kind }) => kind === (change.kind === 'barometer' ? 'barometer' : 'calibration'),
      )
      expect(changes).toHaveLength(1)
      const asked = { changes, sandbox: '?sheet=what-if', reason: 'tried', author: 'Ada Marsh' }
      const proposed = await post('/correction-proposals', asked)
      expect([proposed.status, proposed.body.issues]).toEqual([201, undefined])
      return (proposed.body as CorrectionTaken).number
    }
    const own = { series: twin, fromEpochMs: begins, untilEpochMs: null } as const
    const air = await offered({
      ...own,
      kind: 'barometer',
      barometer: secondAir,
      share: 1,
      referenceKpa: null,
      offsetKpa: 0,
    })
    const at = begins + 10 * hourMs
    const zero = await offered({
      ...own,
      kind: 'zero',
      fromEpochMs: at,
      zero: { by: 'reading', atEpochMs: at },
      reads: 40,
    })
    const stale = async () =>
      (
        (await (await app.request(`${path}/correction-proposals`)).json()) as CorrectionProposals
      ).proposals.find(({ number }) => number === zero)?.stale
    expect(await stale()).toEqual([])
    const decision = { reason: 'the sandbox shows it', author: 'Ben Holm' }
    expect((await post(`/correction-proposals/${air}/approval`, decision)).status).toBe(200)
    expect(await stale()).toEqual([
      expect.stringMatching(
        /^The zero of PZ-06C\/pore-pressure was taken by BA-01\/.*; since then .* by BA-02\//,
      ),
    ])
    const late = await post(`/correction-proposals/${zero}/approval`, decision)
    expect(late.status).toBe(409)
    expect(late.body.issues).toMatchObject([{ code: 'zero-by-another-barometer', column: 'changes.0' }])
  })
})
