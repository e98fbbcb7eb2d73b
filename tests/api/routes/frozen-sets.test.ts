import { mkdtemp, rm, truncate } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type FrozenSets, frozenSetSchema } from '#contract/frozen-sets.ts'
import { type NetworkDocument, networkDocumentSchema } from '#contract/network-document.ts'
import type { Problem } from '#contract/problems.ts'
import type { SliceList } from '#contract/slice-list.ts'
import type { StateDocument } from '#contract/state-document.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { noEvaluation } from '../../../api/alerts/levels-standing.ts'
import { createFreezing } from '../../../api/freeze/create-freezing.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'
import { watchedFrom, watchedSite } from '../../support/watched-site.ts'

const site = 'small-quay'
const path = `/api/sites/${site}/frozen`
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const cutOffEpochMs = watchedFrom + 3 * 3_600_000

let open: OpenAccounts
let folder: string
const cookies = new Map<string, string>()
let set: FrozenSet

const ask = (who: string, url: string, init: RequestInit & { headers?: Record<string, string> } = {}) =>
  open.app.request(url, {
    ...init,
    headers: { ...samePage, cookie: cookies.get(who) ?? '', ...init.headers },
  })
const freeze = (who: string, cutOff: number | null) =>
  ask(who, path, {
    method: 'POST',
    body: JSON.stringify({ cutOffEpochMs: cutOff, author: 'Somebody Else' }),
  })

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'frozen-routes-'))
  const standing = await noEvaluation.standing(site)
  open = await openAccounts({
    freezing: (store, now) =>
      createFreezing({
        store,
        alerts: { evaluated: async () => ({ standing, ways: ['mail'] }) },
        folder: join(folder, 'frozen'),
        slicesFolder: join(folder, 'slices'),
        software: '0.1.0',
        now,
      }),
  })
  const { store } = open
  await store.putSite(watchedSite({}, site), { author: 'tester', reason: 'test', atEpochMs: 0 })
  const [channel = 0] = await store.channelNumbers(site, [{ logger: 'LG-02', name: '2' }])
  const writer = await store.beginBatch({
    site,
    fileName: 'given.csv',
    sha256: 'a'.repeat(64),
    bytes: 1,
    receivedAtEpochMs: watchedFrom,
    from: 'test',
    layout: null,
    layoutVersion: null,
  })
  const hours = [0, 1, 2, 3, 4, 5]
  await writer.append({
    count: hours.length,
    channel: Int32Array.from(hours, () => channel),
    atMicros: BigInt64Array.from(hours, (at) => BigInt(watchedFrom + at * 3_600_000) * 1000n),
    raw: Float64Array.from(hours),
    receivedMicros: BigInt64Array.from(hours, (at) => BigInt(watchedFrom + at * 3_600_000) * 1000n + 1n),
  })
  await writer.commit({ absent: 0 })
  for (const role of ['viewer', 'field', 'engineer'] as const) {
    await open.join(role, site, role)
    cookies.set(role, await open.cookieOf(role))
  }
})
afterAll(async () => {
  await open.close()
  await rm(folder, { recursive: true, force: true })
})

describe('freezing', () => {
  it('is for who may change records, signed by who is signed in', async () => {
    for (const who of ['viewer', 'field']) expect((await freeze(who, cutOffEpochMs)).status).toBe(403)
    const answer = await freeze('engineer', cutOffEpochMs)
    expect(answer.status).toBe(201)
    set = frozenSetSchema.parse(await answer.json())
    expect(set).toMatchObject({
      cutOffEpochMs,
      frozenBy: 'Person engineer',
      software: '0.1.0',
      // Received a microsecond after its hour: of 0, 1 and 2, not of 3.
      readings: { all: 3, provisional: 3 },
    })
    const again = await freeze('engineer', cutOffEpochMs)
    expect([again.status, await again.json()]).toEqual([200, set])
    const listed: FrozenSets = await (await ask('viewer', path)).json()
    expect(listed).toEqual({ sets: [set], running: null })
  })

  it('refuses in words what cannot be frozen', async () => {
    const answer = await freeze('engineer', Date.UTC(2030, 0, 1))
    expect(answer.status).toBe(400)
    const refusal: Problem = await answer.json()
    expect(refusal.issues?.map(({ code }) => code)).toEqual(['cut-off-ahead'])
    expect((await freeze('engineer', watchedFrom - 1)).status).toBe(400)
    for (const beyond of [9e15, -9e15]) expect((await freeze('engineer', beyond)).status).toBe(400)
  })
})

describe('more at once than are taken on', () => {
  it('are refused in words, with when to ask again, and those that wait are made', async () => {
    const cutOffs = Array.from({ length: 8 }, (_, at) => watchedFrom + 3_600_000 + at * 60_000)
    const answers = await Promise.all(cutOffs.map((one) => freeze('engineer', one)))
    const refused = answers.filter(({ status }) => status === 503)
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(5)
    expect(refused.map(({ headers }) => headers.get('retry-after'))).toEqual(['60', '60', '60'])
    const told: Problem = await (refused[0] as Response).json()
    expect(told.detail).toMatch(/^5 freezings of small-quay .* Nothing was frozen/)
    expect((await freeze('engineer', watchedFrom + 5_400_000)).status).toBe(201)
  })
})

describe('a disk without room', () => {
  it('is told, and that nothing was kept', async () => {
    const full = Object.assign(new Error('write'), { code: 'ENOSPC' })
    const other = await openAccounts({
      freezing: () =>
        ({
          freeze: () => Promise.reject(new Error('The month was not written.', { cause: full })),
        }) as never,
    })
    try {
      const answer = await other.app.request(path, {
        method: 'POST',
        headers: samePage,
        body: JSON.stringify({ cutOffEpochMs: null, author: 'A. Tester' }),
      })
      expect([answer.status, ((await answer.json()) as Problem).title]).toEqual([507, 'Disk full'])
    } finally {
      await other.close()
    }
  })
})

describe('a frozen set', () => {
  it('is read by every role, its records by who may read all', async () => {
    for (const name of ['', '/site', '/state', '/alerts', '/network', '/slices', '/since']) {
      const answer = await ask('viewer', `${path}/${set.id}${name}`)
      expect([name, answer.status]).toEqual([name, 200])
    }
    expect((await ask('viewer', `${path}/${set.id}/records`)).status).toBe(403)
    expect((await ask('field', `${path}/${set.id}/records`)).status).toBe(200)
    expect((await ask('viewer', `${path}/${'0'.repeat(16)}`)).status).toBe(404)
    expect((await ask('viewer', `/api/sites/other-quay/frozen/${set.id}`)).status).toBe(404)
  })

  it('is asked for anew each time: rights end, and the next one at the browser may not read it', async () => {
    for (const name of ['', '/site', '/state', '/alerts', '/slices']) {
      const { headers } = await ask('viewer', `${path}/${set.id}${name}`)
      expect([name, headers.get('cache-control')]).toEqual([name, 'private, no-cache'])
      const tag = { 'if-none-match': headers.get('etag') ?? '' }
      expect((await ask('viewer', `${path}/${set.id}${name}`, { headers: tag })).status).toBe(304)
      expect(
        (await open.app.request(`${path}/${set.id}${name}`, { headers: { ...samePage, ...tag } })).status,
      ).toBe(401)
    }
    for (const name of ['network', 'records']) {
      const answer = await ask('field', `${path}/${set.id}/${name}`)
      expect(answer.headers.get('cache-control')).toBe('private, no-cache')
      const tag = { 'if-none-match': answer.headers.get('etag') ?? '' }
      expect((await ask('field', `${path}/${set.id}/${name}`, { headers: tag })).status).toBe(304)
      const other = await ask('viewer', `${path}/${set.id}/${name}`, { headers: tag })
      expect([name, other.status]).toEqual([name, name === 'network' ? 200 : 403])
    }
  })

  it('tells a client of the network what counts are made of, without ways, wiring and certificates', async () => {
    const of = async (who: string): Promise<NetworkDocument> =>
      networkDocumentSchema.parse(await (await ask(who, `${path}/${set.id}/network`)).json())
    const [whole, told] = [await of('field'), await of('viewer')]
    expect(whole.forClients).toBeUndefined()
    expect(whole.loggers.flatMap(({ routes }) => routes)).not.toEqual([])
    expect(told).toMatchObject({ forClients: true, wiringConflicts: [], singlePoints: [] })
    const kept = ({ loggers }: NetworkDocument) =>
      loggers.map(({ logger, days, lastStampEpochMs, consequence }) => [
        logger,
        days,
        lastStampEpochMs,
        consequence,
      ])
    expect(kept(told)).toEqual(kept(whole))
    expect(told.loggers.flatMap(({ routes }) => routes)).toEqual([])
    for (const { wiredChannels } of told.loggers)
      expect(wiredChannels.map(({ channel }) => channel).join('')).toBe('')
  })

  it('is the same under its address', async () => {
    const first = await ask('viewer', `${path}/${set.id}/state`)
    const etag = first.headers.get('etag') ?? ''
    expect(((await first.json()) as StateDocument).asOfEpochMs).toBe(cutOffEpochMs)
    const second = await ask('viewer', `${path}/${set.id}/state`, { headers: { 'if-none-match': etag } })
    expect(second.status).toBe(304)
  })

  it('lists slices that are read by range from the set', async () => {
    const { slices }: SliceList = await (await ask('viewer', `${path}/${set.id}/slices`)).json()
    const [one] = slices
    expect(one?.url).toMatch(/^\/slices\/small-quay\/frozen\/raw-2027-06\.[0-9a-f]{16}\.duckdb$/)
    const url = one?.url ?? ''
    const part = await ask('viewer', url, { headers: { range: 'bytes=8-11' } })
    expect([part.status, await part.text()]).toEqual([206, 'DUCK'])
    const head = await ask('viewer', url, { method: 'HEAD' })
    expect(Number(head.headers.get('content-length'))).toBe(one?.bytes)
    expect((await open.app.request(url, { headers: samePage })).status).toBe(401)
    expect((await ask('viewer', url.replace('raw', 'day'))).status).toBe(404)
  })

  it('tells what came since, who and why to those alone who may read all', async () => {
    open.pass(1000)
    await open.store.changeSite(
      site,
      (model) => ({
        ...model,
        stages: [{ id: 'dig', name: 'dig', startsAt: watchedFrom, endsAt: null, formationLevelMetres: null }],
      }),
      { author: 'Ada Marsh', reason: 'told by phone', atEpochMs: 0 },
    )
    const since = async (who: string) => {
      const answer = await (await ask(who, `${path}/${set.id}/since`)).json()
      return answer.records.map((one: Record<string, string>) => [one.sentence, one.by, one.why])
    }
    expect(await since('field')).toEqual([['The stage dig was added.', 'Ada Marsh', 'told by phone']])
    expect(await since('viewer')).toEqual([['The stage dig was added.', '', '']])
  })

  it('says which part of it is damaged', async () => {
    await truncate(join(folder, 'frozen', site, set.id, 'state.json'), 5)
    const answer = await ask('viewer', `${path}/${set.id}/state`)
    expect(answer.status).toBe(500)
    expect(answer.headers.get('content-type')).toBe('application/problem+json')
    const told: Problem = await answer.json()
    expect(told.detail).toContain(`Part state of the frozen data set ${set.id} has 5 bytes instead of`)
    expect((await ask('viewer', `${path}/${set.id}/site`)).status).toBe(200)
    const freezing = createFreezing({
      store: open.store,
      alerts: { evaluated: () => Promise.reject(new Error('not asked')) },
      folder: join(folder, 'frozen'),
      slicesFolder: join(folder, 'slices'),
      software: '0.1.0',
      now: () => cutOffEpochMs,
    })
    expect(await freezing.damageOf(site, set.id)).toMatch(/^Part state of the frozen data set .* has 5 bytes/)
    expect(await freezing.damageOf(site, '0'.repeat(16))).toMatch(/not held here/)
    const other = (await freezing.list(site)).find(({ id }) => id !== set.id)
    expect(await freezing.damageOf(site, other?.id ?? '')).toBe(null)
    await freezing.close()
  })
})
