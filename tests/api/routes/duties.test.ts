import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { DutiesDocument } from '#contract/duties-document.ts'
import { problemSchema } from '#contract/problems.ts'
import type { RosterPreview, RosterText } from '#contract/roster-text.ts'
import { createApp } from '../../../api/app.ts'
import { createIntake } from '../../../api/intake/create-intake.ts'
import { loadSiteFolder, readSiteFolder, type SiteFolder } from '../../../api/site-folder.ts'
import { createPublisher } from '../../../api/slices/duckdb-publisher.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'

const site = '/api/sites/skarrow-quay'
const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
/** The present of the sample site. */
const present = Date.parse('2027-10-31T22:00:00Z')
const day = 86_400_000

let folder: string
let sample: SiteFolder
let store: Store
let publisher: Publisher
let app: Hono

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'duties-'))
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error(read.issues.map((issue) => issue.message).join('\n'))
  sample = read.value
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  const now = () => present + 1
  publisher = createPublisher({ store, folder: join(folder, 'slices'), now, onFailure: () => {} })
  const intake = createIntake({ store, filesFolder: join(folder, 'files'), presentEpochMs: now })
  const rest = { allowedHosts: ['localhost'], ingestTokenSha256: null, loopbackOnly: true, report: () => {} }
  app = createApp({ store, publisher, intake, now, ...rest })
  await loadSiteFolder(store, sample, 'test', 0)
})
afterAll(async () => {
  await publisher.close()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const send = (method: string, part: string, content: unknown) =>
  app.request(site + part, { method, headers: samePage, body: JSON.stringify(content) })
const duties = async (): Promise<DutiesDocument> => (await app.request(`${site}/duties`)).json()
const issuesOf = async (answer: Response) => problemSchema.parse(await answer.json()).issues ?? []

describe('who is told', () => {
  it('is answered by duty, with who is on, the week, the steps and no hole', async () => {
    const document = await duties()
    expect(document.atEpochMs).toBe(present)
    expect(document.duties.map(({ duty, now }) => [duty, now.map(({ name }) => name)])).toEqual([
      ['Monitoring engineer', ['Tobias Harrick', 'Daniel Venn']],
      ['Section engineer', ['Daniel Venn', 'Petra Souter']],
      ['Tunnel shift engineer', ['Tunnel control room']],
    ])
    for (const { holes, steps, stepsWritten, week } of document.duties) {
      expect(holes).toEqual([])
      expect(steps).toHaveLength(3)
      expect(stepsWritten).toBe(true)
      expect(week.turns.length).toBeGreaterThan(0)
    }
    // One person round the clock has one turn, beyond the week.
    expect(document.duties[2]?.week.turns).toHaveLength(1)
    expect(document.duties[2]?.now[0]?.untilEpochMs).toBeGreaterThan(present + 7 * day)
    expect(document.duties[0]?.now[0]?.untilEpochMs).toBe(Date.parse('2027-11-01T07:00:00Z'))
    expect(document.duties[0]?.levels).toBeGreaterThan(80)
    expect(document.holidays[0]).toMatchObject({ date: '2027-12-27' })
    expect(document.suppressions).toMatchObject([{ id: 'S-01', stands: false }])
  })

  it('names people and the kinds of ways, and no address stands in what viewers get', async () => {
    for (const path of ['', '/duties', '/state', '/field-guide']) {
      const answer = await app.request(site + path)
      expect(answer.status, path).toBe(200)
      expect(await answer.text(), path).not.toContain('example.invalid')
    }
    expect(await (await app.request(`${site}/roster/contacts`)).text()).toContain('example.invalid')
    expect((await app.request('/api/sites/nowhere/duties')).status).toBe(404)
  })
})

describe('what is not sent', () => {
  const draft = (change: object = {}) => ({
    covers: 'instrument',
    name: 'SP-01',
    untilEpochMs: present + 3 * day,
    reason: 'The mark is being rebuilt',
    author: 'A. Tester',
    ...change,
  })

  it.each([
    [{ name: 'SP-99' }, 'name', 'instrument-unknown'],
    [{ covers: 'level' }, 'name', 'level-unknown'],
    [{ untilEpochMs: present + 14 * day + 1 }, 'untilEpochMs', 'suppression-too-long'],
    [{ untilEpochMs: present }, 'untilEpochMs', 'ends-before-begin'],
    [{ untilEpochMs: null }, 'untilEpochMs', 'body-unreadable'],
    [{ reason: ' ' }, 'reason', 'reason-missing'],
    [{ author: ' ' }, 'author', 'author-missing'],
    [{ author: 'site folder' }, 'author', 'author-reserved'],
    [{ fromAt: 0 }, '', 'body-unreadable'],
  ])('is refused with field and reason: %o', async (change, column, code) => {
    const answer = await send('POST', '/suppressions', draft(change))
    expect(answer.status).toBe(400)
    expect((await issuesOf(answer)).map((issue) => [issue.column, issue.code])).toEqual([[column, code]])
  })

  it('stands from now on, two at once both count, and one is ended once by another record', async () => {
    const answers = await Promise.all([
      send('POST', '/suppressions', draft()),
      send('POST', '/suppressions', draft({ covers: 'series', name: 'PZ-01A/pore-pressure' })),
    ])
    expect(answers.map(({ status }) => status)).toEqual([201, 201])
    const standing = (await duties()).suppressions.filter(({ stands }) => stands)
    expect(standing.map(({ id }) => id).sort()).toEqual(['SU-1', 'SU-2'])
    const end = { suppression: 'SU-1', reason: 'Rebuilt', author: 'B. Other' }
    expect((await send('POST', '/suppressions/ends', end)).status).toBe(201)
    for (const [suppression, code] of [
      ['SU-1', 'ended-already'],
      ['S-01', 'ended-already'],
      ['SU-9', 'suppression-unknown'],
    ]) {
      const again = await send('POST', '/suppressions/ends', { ...end, suppression })
      expect((await issuesOf(again)).map((issue) => issue.code)).toEqual([code])
    }
    const ended = (await duties()).suppressions.find(({ id }) => id === 'SU-1')
    expect(ended).toMatchObject({ stands: false, ended: { author: 'B. Other', reason: 'Rebuilt' } })
  })

  it('stays when the folder is loaded again', async () => {
    const before = await store.getSite('skarrow-quay')
    await loadSiteFolder(store, sample, 'again', 1)
    expect(await store.getSite('skarrow-quay')).toEqual(before)
  })
})

describe('a roster changed in the page', () => {
  const text = async (table: string): Promise<RosterText> =>
    (await app.request(`${site}/roster/${table}`)).json()
  const change = { reason: 'Nights are shared anew', author: 'A. Tester', holesKnown: false }

  it('is looked at first: what would be open, and nothing is saved', async () => {
    const { text: before } = await text('duty-shifts')
    const holed = before.replace('sun,19:00,07:00', 'sun,19:00,03:00')
    const answer = await send('POST', '/roster/duty-shifts/preview', { text: holed })
    const preview: RosterPreview = await answer.json()
    expect(preview.rowsAfter).toBe(preview.rowsBefore)
    expect(preview.duties[0]?.holesBefore).toEqual([])
    expect(preview.duties[0]?.holesAfter[0]).toBe(
      'Nobody is on for Monitoring engineer from Mon 1 Nov 02:00 to 06:00.',
    )
    expect(preview.duties[1]?.holesAfter).toEqual([])
    expect((await text('duty-shifts')).text).toBe(before)
    const unknown = await send('POST', '/roster/duty-shifts/preview', {
      text: before.replace(',TH,', ',XX,'),
    })
    expect((await issuesOf(unknown))[0]).toMatchObject({
      code: 'reference-broken',
      file: 'duty-shifts.csv',
      line: 5,
      column: 'contact',
    })
  })

  it('with a hole is refused unless the hole is known, and then told', async () => {
    const before = await text('duty-shifts')
    const holed = {
      ...change,
      basedOn: before.hash,
      text: before.text.replace('sun,19:00,07:00', 'sun,19:00,03:00'),
    }
    const refused = await send('PUT', '/roster/duty-shifts', holed)
    expect(refused.status).toBe(400)
    expect((await issuesOf(refused))[0]?.code).toBe('roster-hole')
    expect(await text('duty-shifts')).toEqual(before)
    const taken = await send('PUT', '/roster/duty-shifts', { ...holed, holesKnown: true })
    expect(taken.status).toBe(200)
    expect((await duties()).duties[0]?.holes[0]?.sentence).toContain('Mon 1 Nov 02:00 to 06:00')
    const [, version] = await store.listVersions('skarrow-quay', 'dutyShifts', 'M-night')
    expect(version).toMatchObject({ author: 'A. Tester', reason: 'Nights are shared anew' })
  })

  it('is refused where somebody else changed it meanwhile, unsigned, or by another name of a table', async () => {
    const { text: before, hash } = await text('holidays')
    const added = { ...change, text: `${before}2027-11-30,Quay day,\n`, basedOn: hash }
    expect((await send('PUT', '/roster/holidays', { ...added, basedOn: 'x' })).status).toBe(409)
    for (const column of ['author', 'reason'])
      expect(
        (await issuesOf(await send('PUT', '/roster/holidays', { ...added, [column]: ' ' })))[0]?.column,
      ).toBe(column)
    expect((await send('PUT', '/roster/instruments', added)).status).toBe(404)
  })

  it('may name what is not set up, which is told', async () => {
    expect((await duties()).nowhere).toEqual([])
    const before = await text('contacts')
    const named = before.text.replace(
      'tunnel.room@example.invalid,,',
      'tunnel.room@example.invalid,t.room,gate',
    )
    const body = { ...change, holesKnown: true, text: named, basedOn: before.hash }
    expect((await send('PUT', '/roster/contacts', body)).status).toBe(200)
    expect((await duties()).nowhere.join()).toMatch(/t\.room.*gate/)
    const back = { ...body, text: before.text, basedOn: (await text('contacts')).hash }
    expect((await send('PUT', '/roster/contacts', back)).status).toBe(200)
  })

  it('stays when the folder is loaded again as it was, and the folder is refused when it says something new', async () => {
    await loadSiteFolder(store, sample, 'again', 2)
    const kept = await store.getSite('skarrow-quay')
    expect(kept?.dutyShifts.find(({ id }) => id === 'M-night')?.untilTime).toBe('03:00')
    const model = {
      ...sample.model,
      dutyShifts: sample.model.dutyShifts.map((shift) =>
        shift.id === 'M-night' ? { ...shift, fromTime: '18:00' } : shift,
      ),
    }
    await expect(loadSiteFolder(store, { ...sample, model }, 'new', 3)).rejects.toThrow(
      /duty-shifts.csv was changed in the page/,
    )
    const taken = { ...sample.model, dutyShifts: kept?.dutyShifts ?? [] }
    await loadSiteFolder(store, { ...sample, model: taken }, 'taken in', 4)
  })
})
