import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder, type SiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'

const path = '/api/sites/skarrow-quay/verdicts'
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const day = (number: number) => Date.UTC(2027, 8, number)

let folder: string
let site: SiteFolder
let store: Store
let publisher: Publisher
let app: Hono
let nowEpochMs = Date.UTC(2027, 10, 1)

async function open() {
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const now = () => nowEpochMs
  publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
  const report = () => {}
  const rest = { allowedHosts: ['localhost'], ingestTokenSha256: null, loopbackOnly: true, report }
  app = createApp({ store, publisher, intake, now, ...rest })
}
async function close() {
  await publisher.close()
  await store.close()
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'verdicts-'))
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  site = read.value
  await open()
  await loadSiteFolder(store, site, 'test', 0)
})
afterAll(async () => {
  await close()
  await rm(folder, { recursive: true, force: true })
})

const draft = (change: object = {}) => ({
  series: 'PZ-01A/pore-pressure',
  fromEpochMs: day(1),
  untilEpochMs: day(9),
  verdict: 'doubtful',
  reason: 'Cable was pulled',
  alternatives: 'Drawdown: the dips stand still',
  author: 'A. Tester',
  ...change,
})
const post = (content: unknown, part = '', headers: Record<string, string> = samePage) =>
  app.request(path + part, { method: 'POST', headers, body: JSON.stringify(content) })
const saved = async (change: object = {}): Promise<Verdict> => {
  const answer = await post(draft(change))
  expect(answer.status).toBe(201)
  return answer.json()
}
const document = async (): Promise<SiteDocument> => (await app.request('/api/sites/skarrow-quay')).json()

describe('a verdict entered in the page', () => {
  it.each([
    [{ untilEpochMs: day(1) }, 'untilEpochMs', 'ends-before-begin'],
    [{ untilEpochMs: day(0) }, 'untilEpochMs', 'ends-before-begin'],
    [{ series: 'PZ-01A/pore-presure' }, 'series', 'series-unknown'],
    [{ reason: '  ' }, 'reason', 'reason-missing'],
    [{ alternatives: '' }, 'alternatives', 'alternatives-missing'],
    [{ author: ' ' }, 'author', 'author-missing'],
    [{ author: 'site folder' }, 'author', 'author-reserved'],
    [{ reason: 'x'.repeat(1001) }, 'reason', 'body-unreadable'],
    [{ verdict: 'fine' }, 'verdict', 'body-unreadable'],
    [{ cause: 'sensor' }, 'confidence', 'confidence-missing'],
    [{ confidence: 'likely' }, 'confidence', 'cause-missing'],
    [{ cause: 'ghost', confidence: 'likely' }, 'cause', 'body-unreadable'],
    [{ effects: ['burn it'] }, 'effects.0', 'body-unreadable'],
    [{ fromEpochMs: 'yesterday' }, 'fromEpochMs', 'body-unreadable'],
    [{ more: 1 }, '', 'body-unreadable'],
  ])('is refused with field and reason: %o', async (change, column, code) => {
    const answer = await post(draft(change))
    expect(answer.status).toBe(400)
    expect(answer.headers.get('content-type')).toContain('application/problem+json')
    const { issues } = problemSchema.parse(await answer.json())
    expect(issues?.map((issue) => [issue.column, issue.code])).toEqual([[column, code]])
    expect((await store.getSite('skarrow-quay'))?.verdicts).toHaveLength(2)
  })

  it('is refused when its body is too large, from elsewhere, and about no site', async () => {
    expect((await post(draft({ reason: 'x'.repeat(140_000) }))).status).toBe(413)
    for (const headers of [
      {},
      { 'sec-fetch-site': 'cross-site' },
      { authorization: `Bearer ${'t'.repeat(30)}` },
    ])
      for (const part of ['', '/withdrawals', '/reviews'])
        expect((await post(draft(), part, headers)).status).toBe(403)
    const body = JSON.stringify(draft())
    const nowhere = { method: 'POST', headers: samePage, body }
    expect((await app.request('/api/sites/nowhere/verdicts', nowhere)).status).toBe(404)
  })

  it('is saved signed and dated, stands in the site document at once, and two at once both count', async () => {
    const rows = await Promise.all([saved(), saved({ series: 'PZ-01B/pore-pressure' })])
    expect(rows.map(({ id }) => id).sort()).toEqual(['VE-1', 'VE-2'])
    expect(rows[0]).toMatchObject({
      at: site.model.facts.presentEpochMs,
      verdict: 'doubtful',
      author: 'A. Tester',
    })
    const [version] = await store.listVersions('skarrow-quay', 'verdicts', 'VE-1')
    expect(version).toMatchObject({
      version: 1,
      recordedAtEpochMs: nowEpochMs,
      author: 'A. Tester',
      reason: 'Cable was pulled',
    })
    expect(
      (await document()).verdicts
        .map(({ id }) => id)
        .slice(2)
        .sort(),
    ).toEqual(['VE-1', 'VE-2'])
  })

  it('is taken back by another record, once, and nothing is deleted', async () => {
    const withdrawal = { verdict: 'VE-1', reason: 'The cable was sound', author: 'B. Other' }
    for (const [change, column] of [
      [{ reason: '' }, 'reason'],
      [{ author: '' }, 'author'],
      [{ verdict: 'VE-9' }, 'verdict'],
    ] as const) {
      const answer = await post({ ...withdrawal, ...change }, '/withdrawals')
      expect(answer.status).toBe(400)
      expect(problemSchema.parse(await answer.json()).issues?.[0]?.column).toBe(column)
    }
    expect((await post(withdrawal, '/withdrawals')).status).toBe(201)
    const again = await post(withdrawal, '/withdrawals')
    expect(problemSchema.parse(await again.json()).issues?.[0]?.message).toContain('already by B. Other')
    const { verdicts, verdictWithdrawals } = await document()
    expect(verdicts).toHaveLength(4)
    expect(verdictWithdrawals).toEqual([{ ...withdrawal, at: site.model.facts.presentEpochMs }])
  })

  it('keeps its evidence as it stood, and is looked at again by dated records while it holds', async () => {
    const line = { cause: 'sensor', rule: 'by-hand', stands: 'for', decibans: 12, sentence: 'It parted.' }
    const evidence = {
      oddity: 'value',
      fromEpochMs: day(1),
      untilEpochMs: day(9),
      rulesVersion: '2026-11-26',
      lines: [{ ...line, figure: { value: 1.5, low: 1, high: 2, unit: 'kPa' } }],
    }
    const more = { cause: 'sensor', confidence: 'very likely', effects: ['re-zero', 'visit ordered'] }
    const row = await saved({ ...more, evidence, series: 'PZ-02A/pore-pressure' })
    expect(row).toMatchObject({ ...more, effects: 're-zero; visit ordered', rulesVersion: '2026-11-26' })
    const review = {
      verdict: row.id,
      outcome: 'reopened',
      found: 'It agrees again',
      reason: 'New dips',
      author: 'B. Other',
    }
    for (const [change, column] of [
      [{ found: ' ' }, 'found'],
      [{ reason: '' }, 'reason'],
      [{ verdict: 'VE-99' }, 'verdict'],
      [{ verdict: 'VE-1' }, 'verdict'],
      [{ outcome: 'gone' }, 'outcome'],
    ] as const) {
      const refused = await post({ ...review, ...change }, '/reviews')
      expect(problemSchema.parse(await refused.json()).issues?.[0]?.column).toBe(column)
    }
    for (const outcome of ['reopened', 'upheld'])
      expect((await post({ ...review, outcome }, '/reviews')).status).toBe(201)
    const { verdictEvidence, verdictReviews, verdicts, triggerLevels } = await document()
    expect(verdictEvidence).toEqual([
      {
        verdict: row.id,
        line: 1,
        ...line,
        figure: 1.5,
        figureLow: 1,
        figureHigh: 2,
        figureUnit: 'kPa',
      },
    ])
    expect(verdictReviews.map(({ outcome, at }) => [outcome, at - (verdictReviews[0]?.at ?? 0)])).toEqual([
      ['reopened', 0],
      ['upheld', 1],
    ])
    expect(verdicts.find(({ id }) => id === row.id)).toEqual(row)
    expect(triggerLevels).toEqual(site.model.triggerLevels)
  })

  it('stays through a restart and the folder loaded again, withdrawals of the folder’s own included', async () => {
    nowEpochMs += 60_000
    await post({ verdict: 'V-02', reason: 'Shaded since', author: 'B. Other' }, '/withdrawals')
    const before = await store.getSite('skarrow-quay')
    await close()
    await open()
    expect(await store.getSite('skarrow-quay')).toEqual(before)
    await loadSiteFolder(store, site, 'again', 1)
    expect(await store.getSite('skarrow-quay')).toEqual(before)
    expect((await saved()).id).toBe('VE-4')
  })

  it('taken into the folder as it is stays one; said otherwise there, the folder is refused', async () => {
    const entered = (await store.getSite('skarrow-quay'))?.verdicts.find(({ id }) => id === 'VE-2')
    if (!entered) throw new Error('no verdict')
    const withRow = (row: Verdict): SiteFolder => ({
      ...site,
      model: { ...site.model, verdicts: [...site.model.verdicts, row] },
    })
    await expect(
      loadSiteFolder(store, withRow({ ...entered, verdict: 'accepted' }), 'again', 2),
    ).rejects.toThrow(/VE-2 was entered in the page by A. Tester/)
    await loadSiteFolder(store, withRow(entered), 'again', 2)
    const ids = (await store.getSite('skarrow-quay'))?.verdicts.map(({ id }) => id)
    expect(ids?.sort()).toEqual(['V-01', 'V-02', 'VE-1', 'VE-2', 'VE-3', 'VE-4'])
  })
})
