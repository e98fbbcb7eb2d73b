import { createHash } from 'node:crypto'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { problemSchema } from '#contract/problems.ts'
import { receiptSchema } from '#contract/receipt.ts'
import { sliceListSchema } from '#contract/slice-list.ts'
import { stateDocumentSchema } from '#contract/state-document.ts'
import { remarkedTrailSchema } from '#contract/trail.ts'
import { createApp } from '../../api/app.ts'
import { createIntake } from '../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder } from '../../api/site-folder.ts'
import { createPublisher } from '../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'

const site = '/api/sites/skarrow-quay'
const token = 'a-token-of-at-least-twenty-characters'
const samePage = { 'sec-fetch-site': 'same-origin' }

let folder: string
let store: Store
let publisher: Publisher
let app: Hono
const reports: string[] = []

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'app-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  await loadSiteFolder(store, read.value, 'test', 0)
  const present = read.value.model.facts.presentEpochMs ?? 0
  publisher = createPublisher({
    store,
    folder: join(folder, 'slices'),
    now: () => present,
    onFailure: () => {},
  })
  app = createApp({
    store,
    publisher,
    intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: () => present }),
    now: () => present,
    allowedHosts: ['localhost'],
    ingestTokenSha256: createHash('sha256').update(token).digest('hex'),
    loopbackOnly: true,
    report: (line) => reports.push(line),
  })
})

afterAll(async () => {
  await publisher.close()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const levelling = ['date,point,level', '2027-04-05 09:10,SP-01,4.6000', '2027-04-12 09:05,SP-01,4.5990'].join(
  '\r\n',
)

describe('reading', () => {
  it('lists sites and gives the model of one with an entity tag', async () => {
    const sites = await (await app.request('/api/sites')).json()
    expect(sites.sites.map((one: { id: string }) => one.id)).toEqual(['skarrow-quay'])
    const answer = await app.request(site)
    const document = await answer.json()
    expect(document.facts.invented).toBe(true)
    expect(document.points.length).toBeGreaterThan(200)
    const again = await app.request(site, { headers: { 'if-none-match': answer.headers.get('etag') ?? '' } })
    expect(again.status).toBe(304)
  })

  it('keeps every point where collar, azimuth and dip put it', async () => {
    const { points } = await (await app.request(site)).json()
    const tip = points.find((point: { id: string }) => point.id === 'PZ-01B')
    expect(tip.levelMetres).toBeCloseTo(-7.4, 1)
    expect(tip.longitude).toBeCloseTo(-30, 2)
    expect(tip.latitude).toBeCloseTo(48, 0)
  })

  it('answers with state and slices in the shapes of the contract', async () => {
    stateDocumentSchema.parse(await (await app.request(`${site}/state`)).json())
    sliceListSchema.parse(await (await app.request(`${site}/slices`)).json())
  })

  it.each([
    ['/api/sites/nowhere', 404],
    ['/api/sites/nowhere/state', 404],
    ['/api/nothing', 404],
    ['/api/sites/nowhere/batches', 404],
    ['/api/sites/nowhere/quarantine', 404],
    [`${site}/trail?series=PZ-01A/pore-pressure`, 400],
    [`${site}/trail?series=PZ-01A/pore-pressure&at=yesterday`, 400],
    [`${site}/trail?series=none&at=2027-06-01T00:00:00Z`, 404],
    [`${site}/quarantine?batch=one`, 400],
    ['/slices/skarrow-quay/index.json', 404],
    ['/slices/skarrow-quay/..%2Findex.json', 404],
    ['/slices/..%2F..%2Fetc/raw-2027-01.0123456789abcdef.duckdb', 404],
    ['/slices/skarrow-quay/raw-2027-01.0123456789abcdef.duckdb', 404],
  ])('%s is refused with problem details', async (path, status) => {
    const answer = await app.request(path)
    expect(answer.status).toBe(status)
    expect(answer.headers.get('content-type')).toBe('application/problem+json')
    expect(problemSchema.parse(await answer.json()).detail).toMatch(/\.$/)
  })
})

describe('adding files', () => {
  const add = (headers: Record<string, string>, body = levelling, name = 'levels.csv') =>
    app.request(`${site}/files?name=${encodeURIComponent(name)}`, { method: 'POST', body, headers })

  it.each([
    ['nobody', {}],
    ['a page from elsewhere', { 'sec-fetch-site': 'cross-site' }],
    ['a page of the same site but another origin', { 'sec-fetch-site': 'same-site' }],
    ['a wrong token', { authorization: `Bearer ${token}x` }],
    ['a short token', { authorization: 'Bearer abc' }],
  ])('is refused to %s', async (_who, headers) => {
    const answer = await add(headers as Record<string, string>)
    expect(answer.status).toBe(401)
    expect(await store.listBatches('skarrow-quay')).toEqual([])
  })

  it('needs a name for the file', async () => {
    expect((await add(samePage, levelling, '../levels.csv')).status).toBe(400)
    expect((await add(samePage, levelling, '')).status).toBe(400)
  })

  it('refuses a file of no known layout, keeps it, and says what to do', async () => {
    const answer = await add({ authorization: `Bearer ${token}` }, 'something;else\r\n1;2\r\n', 'odd.txt')
    expect(answer.status).toBe(422)
    const receipt = receiptSchema.parse(await answer.json())
    expect(receipt).toMatchObject({ outcome: 'refused', accepted: 0 })
    expect(receipt.message?.length).toBeGreaterThan(20)
    expect(await readFile(join(folder, 'files', receipt.sha256.slice(0, 2), receipt.sha256), 'utf8')).toBe(
      'something;else\r\n1;2\r\n',
    )
  })

  it('declares a layout, takes a file under it, publishes it and leads the value back', async () => {
    const look = await app.request(`${site}/files/look?name=own-levels.csv`, {
      method: 'POST',
      body: levelling,
      headers: samePage,
    })
    expect(look.status).toBe(200)
    const layout = {
      id: 'own-levels',
      version: 1,
      title: 'Levels of a crew',
      encoding: 'utf-8',
      delimiter: ',',
      decimalMark: '.',
      headerRows: 1,
      namesRow: 1,
      time: { columns: ['date'], pattern: 'yyyy-MM-dd HH:mm', zone: 'UTC' },
      received: null,
      absent: [''],
      faultCodes: [],
      channels: {
        shape: 'long',
        loggerColumn: null,
        loggerName: (await levellingLogger()).logger,
        channelColumn: 'point',
        valueColumn: 'level',
      },
      fileNamePattern: '^own-levels',
    }
    const declared = await app.request(`${site}/layouts`, {
      method: 'POST',
      body: JSON.stringify({ layout, reason: 'the crew writes it so' }),
      headers: { ...samePage, 'content-type': 'application/json' },
    })
    expect(declared.status).toBe(201)
    const answer = await add(samePage, levelling, 'own-levels.csv')
    expect(receiptSchema.parse(await answer.json())).toMatchObject({
      message: null,
      outcome: 'taken',
      accepted: 2,
      quarantined: 0,
    })
    expect(
      receiptSchema.parse(await (await add(samePage, levelling, 'own-levels.csv')).json()),
    ).toMatchObject({
      accepted: 0,
      repeated: 2,
    })

    await publisher.publish('skarrow-quay')
    const { slices } = sliceListSchema.parse(await (await app.request(`${site}/slices`)).json())
    const [raw] = slices.filter((slice) => slice.resolution === 'raw')
    const part = await app.request(raw?.url ?? '', { headers: { range: 'bytes=8-11' } })
    expect(part.status).toBe(206)
    expect(part.headers.get('content-range')).toBe(`bytes 8-11/${raw?.bytes}`)
    // A DuckDB file has the magic bytes DUCK at offset 8 (DuckDB documentation, storage format).
    expect(await part.text()).toBe('DUCK')
    const head = await app.request(raw?.url ?? '', { method: 'HEAD' })
    expect(head.headers.get('content-length')).toBe(String(raw?.bytes))
    expect(head.headers.get('cache-control')).toContain('immutable')
    const whole = new Uint8Array(await (await app.request(raw?.url ?? '')).arrayBuffer())
    expect(createHash('sha256').update(whole).digest('hex')).toBe(raw?.sha256)

    const trail = remarkedTrailSchema.parse(
      await (await app.request(`${site}/trail?series=SP-01/settlement&at=2027-04-12T12:00:00Z`)).json(),
    )
    expect(trail.sources[0]).toMatchObject({ raw: 4.599, fileName: 'own-levels.csv' })
  })

  it('refuses a layout that is not one, with the place', async () => {
    const answer = await app.request(`${site}/layouts`, {
      method: 'POST',
      body: JSON.stringify({ layout: { id: 'x' }, reason: 'none' }),
      headers: { ...samePage, 'content-type': 'application/json' },
    })
    const problem = problemSchema.parse(await answer.json())
    expect(problem.status).toBe(400)
    expect(problem.issues?.map((issue) => issue.column)).toContain('layout.delimiter')
  })

  async function levellingLogger() {
    const model = await store.getSite('skarrow-quay')
    const wire = model?.wiring.find((one) => one.sensor === 'SP-01/settlement')
    if (!wire) throw new Error('SP-01 is not wired')
    return wire
  }
})

describe('standing guard', () => {
  it('does not answer for another host name', async () => {
    const answer = await app.request('http://elsewhere.example/api/sites', {
      headers: { host: 'elsewhere.example' },
    })
    expect(answer.status).toBe(421)
  })

  it('lets pages load nothing from elsewhere and run no inline script', async () => {
    const policy = (await app.request('/api/sites')).headers.get('content-security-policy') ?? ''
    expect(policy).toContain("default-src 'self'")
    expect(policy).toMatch(/script-src 'self' 'wasm-unsafe-eval'(;|$)/)
    expect(policy).toContain("frame-ancestors 'none'")
  })

  it('reports a failure with its cause to the server and without it to the client', async () => {
    const broken = createApp({
      store,
      publisher: { ...publisher, listSites: () => Promise.reject(new Error('disk at sea')) },
      intake: createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: () => 0 }),
      now: () => 0,
      allowedHosts: ['localhost'],
      ingestTokenSha256: null,
      loopbackOnly: true,
      report: (line) => reports.push(line),
    })
    const answer = await broken.request('/api/sites')
    expect(answer.status).toBe(500)
    expect(await answer.text()).not.toContain('disk at sea')
    expect(reports.join('\n')).toContain('disk at sea')
  })
})
