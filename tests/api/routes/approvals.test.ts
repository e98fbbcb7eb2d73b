import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'

const path = '/api/sites/skarrow-quay'
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const now = () => Date.UTC(2027, 10, 1)

let folder: string
let store: Store
let publisher: Publisher
let app: Hono

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'approvals-'))
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
  const rest = { allowedHosts: ['localhost'], ingestTokenSha256: null, loopbackOnly: true, report: () => {} }
  app = createApp({ store, publisher, intake, now, ...rest })
  await loadSiteFolder(store, read.value, 'test', 0)
})
afterAll(async () => {
  await publisher.close()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const post = (part: string, content: unknown) =>
  app.request(path + part, { method: 'POST', headers: samePage, body: JSON.stringify(content) })
const approvalsOf = async (instrument: string) => {
  const { approvals } = (await (await app.request(path)).json()) as SiteDocument
  return approvals.filter((one) => one.instrument === instrument)
}
const draft = {
  instruments: ['PZ-05', 'SP-31'],
  fromEpochMs: Date.UTC(2027, 8, 1),
  untilEpochMs: Date.UTC(2027, 9, 1),
  statement: 'September looked through',
  author: 'A. Approver',
}

test('approved readings are provisional again once their calibration changes, and those of another instrument are not', async () => {
  const answer = await post('/approvals', draft)
  expect(answer.status).toBe(201)
  const [before] = await approvalsOf('PZ-05')
  expect(before).toMatchObject({ approver: 'A. Approver', changedSince: false })
  expect(await approvalsOf('SP-31')).toMatchObject([{ changedSince: false }])

  const site = await store.getSite('skarrow-quay')
  const latest = site?.calibrations.findLast(({ sensor }) => sensor === 'PZ-05C/pore-pressure')
  const steps = site?.calibrationSteps.filter(({ calibration }) => calibration === latest?.id)
  if (!latest || !steps?.length) throw new Error('the sample has no calibration of PZ-05C')
  const next = { ...latest, id: 'CC-test/9', version: latest.version + 1, validFrom: Date.UTC(2027, 8, 10) }
  await store.addRows(
    'skarrow-quay',
    { calibrations: [next], calibrationSteps: steps.map((step) => ({ ...step, calibration: next.id })) },
    { author: 'B. Other', reason: 'checked at the bench', atEpochMs: now() },
  )
  expect(await approvalsOf('PZ-05')).toMatchObject([{ changedSince: true }])
  expect(await approvalsOf('SP-31')).toMatchObject([{ changedSince: false }])
})

test('an approval is taken back, and what nobody could have seen is refused', async () => {
  const [standing] = await approvalsOf('SP-31')
  const back = { approval: standing?.id, reason: 'The benchmark had moved', author: 'B. Other' }
  // What a folder's next load would take back is no record of a person.
  const asFolder = { author: 'site folder ' }
  expect((await post('/approvals/withdrawals', { ...back, ...asFolder })).status).toBe(400)
  expect((await post('/approvals', { ...draft, ...asFolder })).status).toBe(400)
  expect((await post('/approvals/withdrawals', back)).status).toBe(201)
  expect(await approvalsOf('SP-31')).toEqual([])
  const again = await post('/approvals/withdrawals', back)
  expect(again.status).toBe(400)
  const early = await post('/approvals', { ...draft, untilEpochMs: Date.UTC(2027, 11, 1) })
  expect(early.status).toBe(400)
  const problem = problemSchema.parse(await early.json())
  expect(problem.issues?.map(({ code, column }) => [code, column])).toEqual([['not-past', 'untilEpochMs']])
})
