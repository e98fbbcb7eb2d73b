import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { CalibrationPreview } from '#contract/calibration-preview.ts'
import { problemSchema } from '#contract/problems.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { type RemarkedTrail, remarkedTrailSchema } from '#contract/trail.ts'
import { periodAt } from '#domain/reduction/series-uncertainty.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder, type SiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'

const path = '/api/sites/skarrow-quay/calibrations'
const sensor = 'SP-01/settlement'
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const token = 'a-token-of-at-least-twenty-characters'

let folder: string
let site: SiteFolder
let store: Store
let publisher: Publisher
let app: Hono

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'calibrations-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  site = read.value
  await loadSiteFolder(store, site, 'test', 0)
  const now = () => site.model.facts.presentEpochMs ?? 0
  publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
  app = createApp({
    store,
    publisher,
    intake,
    now,
    allowedHosts: ['localhost'],
    ingestTokenSha256: null,
    loopbackOnly: true,
    report: () => {},
  })
  const levels = [4.6, 4.599, 4.598, 4.59].map((level, week) => `2027-04-${10 + week},09:10,SP-01,${level}`)
  const taken = await app.request('/api/sites/skarrow-quay/files?name=levelling_20270420.csv', {
    method: 'POST',
    headers: samePage,
    body: ['Levelling', 'invented', 'date,time,point,level', ...levels].join('\r\n'),
  })
  expect((await taken.json()).accepted).toBe(4)
  await publisher.publish('skarrow-quay')
})
afterAll(async () => {
  await publisher.close()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const list = async (): Promise<CalibrationList> =>
  (await app.request(`${path}?${new URLSearchParams({ sensor })}`)).json()
const post = (part: string, content: unknown, headers: Record<string, string> = samePage) =>
  app.request(path + part, { method: 'POST', headers, body: JSON.stringify(content) })
const draftOf = async (change: object = {}) => {
  const { versions } = await list()
  const last = versions.at(-1)
  if (!last) throw new Error('no version')
  return {
    sensor,
    follows: last.row.version,
    validFromEpochMs: Date.UTC(2027, 3, 12),
    certificate: null,
    calibratedAtEpochMs: null,
    dueAtEpochMs: null,
    standardUncertainty: last.row.standardUncertainty,
    steps: last.stepRows.map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' })),
    author: 'A. Tester',
    reason: 'bench mark moved',
    ...change,
  }
}
/** 3 mm more settlement from the draft's instant on. */
const moved = async () => {
  const draft = await draftOf()
  return { ...draft, steps: [...draft.steps, { kind: 'zero', parameters: 'value=-3' }] }
}
const stored = async () => (await store.getSite('skarrow-quay'))?.calibrations.length

describe('calibrations of a sensor', () => {
  it('are listed with their steps, and a stranger sensor is named', async () => {
    const { unit, versions } = await list()
    expect(unit).toBe('mm')
    expect(versions.map(({ row }) => row.version)).toEqual([1])
    expect(versions[0]?.stepRows.length).toBeGreaterThan(0)
    expect((await app.request(`${path}?sensor=SP-99/settlement`)).status).toBe(404)
  })

  it('say what their zero readings tell, and which levels that puts in doubt', async () => {
    const answer = await app.request(`${path}?sensor=PZ-01A%2Fpore-pressure`)
    const { versions, levelCautions }: CalibrationList = await answer.json()
    expect(versions.map(({ baselineSentence }) => baselineSentence)).toEqual([
      expect.stringMatching(
        /^Baseline of 10 readings.*repeatability 0\.\d+ kPa.*standard error of the zero 0\.\d+ kPa/,
      ),
    ])
    expect(levelCautions).toEqual([])
    expect((await list()).versions[0]?.baselineSentence).toBe('No zero readings are recorded.')
  })

  it('a preview says what would change, and changes nothing', async () => {
    const before = await stored()
    const answer = await post('/preview', await moved())
    expect(answer.status).toBe(200)
    const preview: CalibrationPreview = await answer.json()
    expect(preview).toMatchObject({ readings: 4, changed: 2, lost: 0, gained: 0, unit: 'mm' })
    expect(preview.greatestChange?.new).toBeCloseTo((preview.greatestChange?.old ?? 0) + 3, 6)
    expect(preview.meanChange).toBeCloseTo(1.5, 6)
    const total = preview.stretches.filter(({ old, new: fresh }) => old.mean !== fresh.mean)
    expect(total).toHaveLength(2)
    expect(await stored()).toBe(before)
  })

  it('a preview and the answer say which zero readings a version leaves behind, and none where there are none', async () => {
    const preview: CalibrationPreview = await (await post('/preview', await moved())).json()
    expect(preview.zeroReadingsLeft).toBe(null)
    const model = await store.getSite('skarrow-quay')
    const [read] = model?.zeroReadings ?? []
    const row = model?.calibrations.find(({ id }) => id === read?.calibration)
    const kept = { ...(await moved()), sensor: row?.sensor, follows: row?.version, steps: [] as object[] }
    kept.steps = (model?.calibrationSteps ?? [])
      .filter((step) => step.calibration === row?.id)
      .map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' }))
    const count = model?.zeroReadings.filter(({ calibration }) => calibration === row?.id).length
    const sentence = expect.stringContaining(`${count} zero readings of ${row?.id} stay with that version`)
    const other = await post('/preview', kept)
    expect([other.status, await other.json()]).toMatchObject([200, { zeroReadingsLeft: sentence }])
    const saved = await post('', kept)
    expect([saved.status, await saved.json()]).toMatchObject([201, { zeroReadingsLeft: sentence }])
  })

  it('a draft with faults is refused with their places, and nothing is stored', async () => {
    const before = await stored()
    for (const part of ['', '/preview']) {
      const answer = await post(part, await draftOf({ reason: '', steps: [] }))
      expect(answer.status).toBe(400)
      const { issues } = problemSchema.parse(await answer.json())
      expect(issues?.map(({ column }) => column)).toEqual(['reason', 'steps'])
    }
    for (const part of ['', '/preview']) {
      const answer = await post(part, await draftOf({ reason: 'Half \ud83d' }))
      const { issues } = problemSchema.parse(await answer.json())
      expect([answer.status, issues?.[0]?.code]).toEqual([400, 'character-broken'])
    }
    expect((await post('', { sensor })).status).toBe(400)
    expect((await post('', await draftOf({ validFromEpochMs: 'tomorrow' }))).status).toBe(400)
    expect(await stored()).toBe(before)
  })

  it('only the page on this machine may change them: not a token, not another origin', async () => {
    const draft = await moved()
    for (const headers of [{}, { 'sec-fetch-site': 'cross-site' }, { authorization: `Bearer ${token}` }])
      for (const part of ['', '/preview']) expect((await post(part, draft, headers)).status).toBe(403)
    expect(
      (await app.request('/api/sites/nowhere/calibrations', { method: 'POST', headers: samePage })).status,
    ).toBe(404)
  })

  it('is saved as the next version, and every value follows', async () => {
    const draft = await moved()
    const answer = await post('', draft)
    expect(answer.status).toBe(201)
    const { versions } = await list()
    expect(versions.map(({ row }) => [row.version, row.author, row.reason]).at(-1)).toEqual([
      2,
      'A. Tester',
      'bench mark moved',
    ])
    await publisher.publish('skarrow-quay')
    const value = async (day: number) => {
      const trail = await publisher.trail('skarrow-quay', sensor, Date.UTC(2027, 3, day, 20))
      return trail.ok ? trail.value.sources[0]?.calibrationVersion : null
    }
    expect(await value(11)).toBe(1)
    expect(await value(12)).toBe(2)
    expect((await post('', draft)).status).toBe(400)
  })

  it('until its values are published, a trail says which version histories and plan still show', async () => {
    const trailOn = async (day: number): Promise<RemarkedTrail> => {
      const question = new URLSearchParams({ series: sensor, at: `2027-04-${day}T20:00:00Z` })
      return remarkedTrailSchema.parse(
        await (await app.request(`/api/sites/skarrow-quay/trail?${question}`)).json(),
      )
    }
    expect((await trailOn(12)).pending).toBeNull()
    const { row, stepRows } = (await list()).versions.at(-1) ?? {}
    if (!row || !stepRows) throw new Error('no version')
    const id = 'CC-143/3'
    // As saving does, but with no publishing in the background to race with.
    await store.addRows(
      'skarrow-quay',
      {
        calibrations: [{ ...row, id, version: 3 }],
        calibrationSteps: [
          ...stepRows.map((step) => ({ ...step, calibration: id })),
          { calibration: id, step: stepRows.length + 1, kind: 'zero', parameters: 'value=1' },
        ],
      },
      { author: 'A. Tester', reason: 'read again', atEpochMs: 2 },
    )
    const behind = await trailOn(12)
    expect(behind.sources[0]?.calibrationVersion).toBe(3)
    expect(behind.pending).toEqual({
      month: '2027-04',
      published: [{ series: sensor, version: 2 }],
      sentence:
        'Histories and plan still show version 2 of the calibration of SP-01/settlement (here: version 3) for 2027-04. They are being worked out anew.',
    })
    // The value of the day before has the version that is published, yet its month is made again.
    const earlier = await trailOn(11)
    expect(earlier.sources[0]?.calibrationVersion).toBe(1)
    expect(earlier.pending).toMatchObject({
      published: [],
      sentence: expect.stringContaining('still show values of 2027-04'),
    })
    await publisher.publish('skarrow-quay')
    expect((await trailOn(12)).pending).toBeNull()
    expect((await trailOn(11)).pending).toBeNull()
  })

  it('of two that are saved at once one is refused', async () => {
    const draft = await draftOf({ reason: 'first' })
    const answers = await Promise.all([post('', draft), post('', { ...draft, reason: 'second' })])
    expect(answers.map(({ status }) => status).filter((status) => status === 201)).toHaveLength(1)
    expect((await list()).versions).toHaveLength(4)
  })

  it('stays when the site folder is loaded again, and a folder that gives its number away is refused', async () => {
    await loadSiteFolder(store, site, 'again', 1)
    expect((await list()).versions).toHaveLength(4)
    const [row] = site.model.calibrations.filter((one) => one.sensor === sensor)
    if (!row) throw new Error('no row')
    const clashing = {
      ...site.model,
      calibrations: [...site.model.calibrations, { ...row, id: 'XX/2', version: 2 }],
    }
    await expect(loadSiteFolder(store, { ...site, model: clashing }, 'again', 2)).rejects.toThrow(
      /entered in the page/,
    )
    expect((await list()).versions).toHaveLength(4)
  })

  it('zero readings that scatter widely put its levels in doubt and stand in the trail', async () => {
    const before = await publisher.trail('skarrow-quay', sensor, Date.UTC(2027, 3, 11, 20))
    const zeroReadings = [4.5443, 4.5643, 4.5443, 4.5643].map((raw, minute) => ({
      calibration: 'CC-143/1',
      at: Date.UTC(2027, 0, 18, 14, minute),
      raw,
      temperatureDegC: null,
      barometerKpa: null,
      author: 'A. Tester',
    }))
    const signature = { author: 'A. Tester', reason: 'bench read again', atEpochMs: 3 }
    await store.addRows('skarrow-quay', { zeroReadings }, signature)
    await publisher.publish('skarrow-quay')
    const { versions, levelCautions } = await list()
    expect(versions[0]?.baselineSentence).toContain('Baseline of 4 readings: mean 0 mm')
    expect(levelCautions.map(({ level }) => level)).toEqual(['SP-01 settlement 1', 'SP-01 settlement 2'])
    const after = await publisher.trail('skarrow-quay', sensor, Date.UTC(2027, 3, 11, 20))
    if (!before.ok || !after.ok) throw new Error('no trail')
    expect(before.value.sources[0]?.uncertaintySentences.join(' ')).not.toContain('The zero rests')
    expect(after.value.sources[0]?.uncertaintySentences[0]).toContain('The zero rests on 4 readings')
    expect(after.value.value).toBe(before.value.value)
    // What the series is published with is what the trail of its value says.
    const document: SiteDocument = await (await app.request('/api/sites/skarrow-quay')).json()
    const periods = document.series.find(({ id }) => id === sensor)?.uncertaintyPeriods ?? []
    const published = periodAt(periods, after.value.atEpochMs)
    expect(published?.standardUncertainty).toBeCloseTo(after.value.standardUncertainty ?? Number.NaN, 9)
    expect(after.value.changeSentence).toContain('has a standard uncertainty of 16 mm')
    // ± 10 mm four times: a standard deviation of 20/√3 mm for a reading, half of it for their mean.
    expect(after.value.standardUncertainty).toBeCloseTo(
      Math.hypot(before.value.standardUncertainty ?? Number.NaN, 10 / Math.sqrt(3), 20 / Math.sqrt(3)),
      9,
    )
  })
})
