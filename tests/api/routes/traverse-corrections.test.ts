import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import type { TraverseCorrectionList } from '#contract/traverse-correction.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'
import { instrumentRow, pointRow, sensorRow } from '../../domain/reduction/sample-bundles.ts'

const path = '/api/sites/skarrow-quay/traverse-corrections'
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const points = ['T-0', 'T-1', 'T-2', 'T-3']
const surveyAtEpochMs = Date.UTC(2027, 4, 3, 9)

let folder: string
let store: Store
let publisher: Publisher
let app: Hono

/** A traversed casing beside what a site has. */
const withCasing = (model: SiteModel): SiteModel => {
  const sensors = points.flatMap((id) =>
    (['face-a0', 'face-a180'] as const).map((face) => sensorRow(id, face, 'mm')),
  )
  return {
    ...model,
    instruments: [
      ...model.instruments,
      {
        ...instrumentRow('T', 'traversed-inclinometer', 'toe'),
        location: model.locations[0]?.id ?? '',
        stillBelowMetres: 2,
      },
    ],
    points: [
      ...model.points,
      ...points.map((id, at) => ({ ...pointRow(id, 'T', 1 + 2 * at), zeroDeviationAMm: at })),
    ],
    sensors: [...model.sensors, ...sensors],
    calibrations: [
      ...model.calibrations,
      ...sensors.map(({ id }) => ({
        id: `${id}/1`,
        sensor: id,
        version: 1,
        validFrom: 0,
        certificate: null,
        calibratedAt: null,
        dueAt: null,
        standardUncertainty: 0.1,
        author: 'A. Author',
        reason: 'as installed',
      })),
    ],
    calibrationSteps: [
      ...model.calibrationSteps,
      ...sensors.map(({ id }) => ({
        calibration: `${id}/1`,
        step: 1,
        kind: 'linear' as const,
        parameters: 'factor=0.01; offset=0; unit=mm',
      })),
    ],
  }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'traverses-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  await loadSiteFolder(store, { ...read.value, model: withCasing(read.value.model) }, 'test', 0)
  const now = () => read.value.model.facts.presentEpochMs ?? 0
  publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  app = createApp({
    store,
    // Values are worked out when a test says so: in the background they were done, or still under way, by chance.
    publisher: { ...publisher, changed: () => {} },
    intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now }),
    now,
    allowedHosts: ['localhost'],
    ingestTokenSha256: null,
    loopbackOnly: true,
    report: () => {},
  })
  await publisher.publish('skarrow-quay')
})
afterAll(async () => {
  await publisher.close()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const list = async (): Promise<TraverseCorrectionList> =>
  (await app.request(`${path}?instrument=T&axis=a`)).json()
const post = (content: unknown, headers: Record<string, string> = samePage) =>
  app.request(path, { method: 'POST', headers, body: JSON.stringify(content) })
const correction = async (change: object = {}) => ({
  basis: (await list()).basis,
  instrument: 'T',
  axis: 'a',
  surveyAtEpochMs,
  holds: 'survey',
  amounts: points.map((point) => ({ point, amountOffMm: 0.35, standardErrorMm: 0.02 })),
  author: 'B. Author',
  reason: 'bias shift of 0.35 mm',
  ...change,
})
const versions = async () =>
  ((await store.getSite('skarrow-quay'))?.calibrations ?? []).filter(({ sensor }) => sensor.startsWith('T-'))

describe('corrections of a casing', () => {
  it('are listed for a casing and for nothing else', async () => {
    expect((await list()).entered).toEqual([])
    expect((await app.request(`${path}?instrument=PZ-01&axis=a`)).status).toBe(404)
  })

  it('one that is wrong anywhere saves nothing anywhere, and says why', async () => {
    const before = await versions()
    for (const [change, code] of [
      [{ amounts: [{ point: 'T-0', amountOffMm: 1, standardErrorMm: 0.02 }] }, 'intervals-unlike'],
      [{ reason: '' }, 'reason-missing'],
      [{ surveyAtEpochMs: Date.UTC(1960, 0) }, 'calibration-missing'],
      [{ holds: 'for ever' }, 'correction-unreadable'],
      [{ reason: 'Half \ud83d' }, 'character-broken'],
    ] as const) {
      const answer = await post(await correction(change))
      expect(answer.status).toBe(400)
      const { issues } = problemSchema.parse(await answer.json())
      expect(issues?.map((issue) => issue.code)).toContain(code)
    }
    expect(await versions()).toEqual(before)
  })

  it('is refused from another page', async () => {
    const headers = { ...samePage, 'sec-fetch-site': 'cross-site' }
    expect((await post(await correction(), headers)).status).toBe(403)
  })

  it('of all faces is saved together, and what held before follows it', async () => {
    const answer = await post(await correction())
    expect([answer.status, await answer.json()]).toEqual([201, { saved: 16 }])
    const own = (await versions()).filter(({ sensor }) => sensor === 'T-2/face-a180')
    expect(own.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      0.1,
      Math.hypot(0.1, 0.02),
      0.1,
    ])
    expect(own.map(({ version, validFrom }) => [version, validFrom])).toEqual([
      [1, 0],
      [2, surveyAtEpochMs],
      [3, surveyAtEpochMs + 60_000],
    ])
    expect((await list()).entered.map(({ faces, author }) => [faces, author])).toEqual([
      [8, 'B. Author'],
      [8, 'B. Author'],
    ])
  })

  it('is refused while the values of the last one are not worked out: it would be taken off twice', async () => {
    const answer = await post(await correction())
    expect([answer.status, problemSchema.parse(await answer.json()).title]).toEqual([
      409,
      'Values are being worked out anew',
    ])
    await publisher.publish('skarrow-quay')
  })

  it('drafted from a list that another save has overtaken is refused', async () => {
    const stale = await correction({ holds: 'onwards' })
    expect((await post(await correction({ surveyAtEpochMs: surveyAtEpochMs + 86_400_000 }))).status).toBe(201)
    await publisher.publish('skarrow-quay')
    const answer = await post(stale)
    expect(answer.status).toBe(409)
    expect((await versions()).filter(({ version }) => version > 5)).toEqual([])
  })
})
