import { afterAll, beforeAll, expect, test } from 'vitest'
import type { BoardsConflict, MeetingList, MinuteList } from '#contract/meetings.ts'
import { type Problem, problemSchema } from '#contract/problems.ts'
import type { Role } from '#domain/access/permissions.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { Meeting } from '#domain/meeting/meeting.ts'
import type { Minute } from '#domain/meeting/minute.ts'
import { accept } from '#domain/outcome.ts'
import type { Freezing } from '../../../api/freeze/freezing.ts'
import { FrozenPartDamaged } from '../../../api/freeze/frozen-parts.ts'
import { type OpenAccounts, openAccounts } from '../../support/open-accounts.ts'

const samePage = { 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' }
const site = 'small-quay'
const path = `/api/sites/${site}`
const held = Date.UTC(2027, 8, 28, 10)
const cutOff = Date.UTC(2027, 8, 27, 18)

/** Freezes nothing but remembers what it was asked for: a set a cut-off, named by it. */
const sets = new Map<string, FrozenSet>()
let frozen = 0
const freezing: Freezing = {
  find: async (of, id) => (of === site ? (sets.get(id) ?? null) : null),
  freeze: async (of, cutOffEpochMs, by) => {
    frozen++
    const set = setOf(cutOffEpochMs ?? 0, of, by.name)
    sets.set(set.id, set)
    return accept({ set, made: true })
  },
  list: async () => [],
  running: () => null,
  document: () => Promise.reject(new Error('not asked for here')),
  damageOf: async () => null,
  sliceFile: async () => null,
  since: () => Promise.reject(new Error('not asked for here')),
  close: async () => {},
}
const setOf = (cutOffEpochMs: number, of = site, frozenBy = 'test'): FrozenSet => ({
  id: cutOffEpochMs.toString(16).padStart(16, '0'),
  site: of,
  cutOffEpochMs,
  frozenAtEpochMs: cutOffEpochMs,
  frozenBy,
  revision: 1,
  software: 'test',
  readings: { all: 0, provisional: 0 },
  parts: [],
})

let open: OpenAccounts
const cookies = new Map<string, string>()

beforeAll(async () => {
  open = await openAccounts({ freezing })
  for (const role of ['viewer', 'field', 'engineer'] as const) {
    await open.join(role, site, role)
    cookies.set(role, await open.cookieOf(role))
  }
  for (const at of [cutOff, cutOff - 7 * 86_400_000]) sets.set(setOf(at).id, setOf(at))
})
afterAll(() => open.close())

const ask = (role: Role, part: string) =>
  open.app.request(path + part, { headers: { cookie: cookies.get(role) ?? '' } })
const send = (role: Role, part: string, content: unknown, method = 'POST') =>
  open.app.request(path + part, {
    method,
    headers: { ...samePage, cookie: cookies.get(role) ?? '' },
    body: JSON.stringify(content),
  })
const codesOf = async (answer: Response) =>
  (problemSchema.parse(await answer.json()).issues ?? []).map(({ code }) => code)

const board = (title: string, address = `site=${site}`) => ({
  kind: 'plan' as const,
  title,
  address,
  seconds: 20,
})
const draft = {
  title: 'September meeting',
  heldAtEpochMs: held,
  frozenSet: setOf(cutOff).id,
  boards: [board('The site'), board('Struts', `site=${site}&sheet=section&at=2027-09-27T18%3A00%3A00.000Z`)],
  author: 'whoever',
}
const action = {
  kind: 'action' as const,
  text: 'Level the kerb again',
  places: [] as string[],
  owner: 'Site surveyor',
  dueOn: '2027-10-05',
  author: 'whoever',
}

test('a meeting is made over a set that is there, and the next one counts its change from it', async () => {
  const early = { ...draft, title: 'First', frozenSet: setOf(cutOff - 7 * 86_400_000).id }
  const first = (await (await send('engineer', '/meetings', early)).json()) as Meeting
  expect(first).toMatchObject({ id: 1, previous: null, version: 1, author: 'Person engineer' })
  const answer = await send('engineer', '/meetings', draft)
  expect(answer.status).toBe(201)
  expect(await answer.json()).toMatchObject({
    id: 2,
    previous: 1,
    cutOffEpochMs: cutOff,
    frozenSet: draft.frozenSet,
    boards: draft.boards,
  })
  const { meetings } = (await (await ask('viewer', '/meetings')).json()) as MeetingList
  expect(meetings.map(({ id }) => id).toSorted()).toEqual([1, 2])
  // The entries stand in the audit record, by who was signed in.
  const made = await open.store.listAudit({ site, subjectKind: 'meetings', limit: 10 })
  expect(made.map(({ name, action: done, subjectKey }) => [name, done, subjectKey])).toEqual([
    ['Person engineer', 'made', '2'],
    ['Person engineer', 'made', '1'],
  ])
  expect(await open.store.listAudit({ site, subjectKind: 'boards', limit: 10 })).toHaveLength(4)
})

test('a meeting over a set that is not there is refused, and so is a previous one with later data', async () => {
  const unknown = await send('engineer', '/meetings', { ...draft, frozenSet: 'f'.repeat(16) })
  expect(unknown.status).toBe(400)
  expect(await codesOf(unknown)).toEqual(['frozen-set-unknown'])
  const later = await send('engineer', '/meetings', { ...draft, previous: 2 })
  expect(await codesOf(later)).toEqual(['previous-not-earlier'])
  expect(await codesOf(await send('engineer', '/meetings', { ...draft, previous: 99 }))).toEqual([
    'meeting-unknown',
  ])
})

test.each([
  ['61 boards', Array.from({ length: 61 }, (_, at) => board(`Board ${at}`)), 'boards-expected'],
  ['none', [], 'boards-expected'],
  ['another host', [board('x', `https://elsewhere.example/?site=${site}`)], 'board-address-refused'],
  [
    'another host without a scheme',
    [board('x', `//elsewhere.example/?site=${site}`)],
    'board-address-refused',
  ],
  ['a script', [board('x', 'javascript:alert(1)')], 'board-address-refused'],
  ['markup', [board('x', `site=${site}&find=<script>alert(1)</script>`)], 'board-address-refused'],
  ['another site', [board('x', 'site=other-quay')], 'board-address-refused'],
  ['two sites', [board('x', `site=other-quay&site=${site}`)], 'board-address-refused'],
  ['later data', [board('x', `site=${site}&frozen=0000000000000000`)], 'board-address-refused'],
  ['a long address', [board('x', `site=${site}&find=${'a'.repeat(4000)}`)], 'board-address-refused'],
  ['no title', [board('  ')], 'title-expected'],
  ['a blink', [{ ...board('x'), seconds: 4 }], 'board-seconds-expected'],
])('boards with %s are refused', async (_, boards, code) => {
  const answer = await send('engineer', '/meetings/2/boards', { version: 1, boards, author: 'x' }, 'PUT')
  expect(answer.status).toBe(400)
  expect(await codesOf(answer)).toEqual([code])
})

test('boards are saved as another version; over what was not looked at they are not', async () => {
  const boards = [board('<b>Struts</b> & wall'), board('The site')]
  const saved = await send('engineer', '/meetings/2/boards', { version: 1, boards, author: 'x' }, 'PUT')
  expect(saved.status).toBe(200)
  // Text stays text: nothing is taken out of it, and the page writes it as letters.
  expect(await saved.json()).toMatchObject({ version: 2, boards })
  const mine = [board('Mine alone')]
  const late = await send('engineer', '/meetings/2/boards', { version: 1, boards: mine, author: 'x' }, 'PUT')
  expect(late.status).toBe(409)
  const conflict = (await late.json()) as BoardsConflict
  expect(conflict.detail).toContain('Person engineer saved version 2')
  expect([conflict.latest.boards, conflict.sent]).toEqual([boards, mine])
  const both = ['A', 'B'].map((title) =>
    send('engineer', '/meetings/2/boards', { version: 2, boards: [board(title)], author: 'x' }, 'PUT'),
  )
  expect((await Promise.all(both)).map(({ status }) => status).toSorted()).toEqual([200, 409])
  const rows = (await open.store.getSite(site))?.boards.filter(({ meeting }) => meeting === 2)
  expect(rows?.map(({ version }) => version)).toEqual([1, 1, 2, 2, 3])
  for (const unknown of ['99', '0', 'x', '1e1', '-1'])
    expect(
      (
        await send(
          'engineer',
          `/meetings/${unknown}/boards`,
          { version: 1, boards: mine, author: 'x' },
          'PUT',
        )
      ).status,
    ).toBe(404)
})

test('who reads sees all and changes nothing; who works along the works writes minutes, not boards', async () => {
  const boards = { version: 3, boards: [board('x')], author: 'x' }
  expect((await ask('viewer', '/meetings')).status).toBe(200)
  expect((await ask('viewer', '/minutes')).status).toBe(200)
  for (const role of ['viewer', 'field'] as const) {
    expect((await send(role, '/meetings', draft)).status).toBe(403)
    expect((await send(role, '/meetings/2/boards', boards, 'PUT')).status).toBe(403)
    expect((await send(role, '/meetings/2/freeze', { author: 'x' })).status).toBe(403)
  }
  expect((await send('viewer', '/meetings/2/minutes', action)).status).toBe(403)
  expect((await send('viewer', '/minutes/1/entries', {})).status).toBe(403)
  expect((await open.app.request(`${path}/minutes`)).status).toBe(401)
  expect((await send('field', '/meetings/2/minutes', { ...action, text: 'By the crew' })).status).toBe(201)
})

test('an action is agreed, said to be done, and comes after what is still open', async () => {
  const agreed = (await (await send('engineer', '/meetings/2/minutes', action)).json()) as Minute
  expect(agreed).toMatchObject({
    id: 2,
    meeting: 2,
    owner: 'Site surveyor',
    author: 'Person engineer',
    entries: [],
  })
  const said = { standing: 'done', note: 'Levelled on 4 October, no change', author: 'x' }
  const done = await send('field', `/minutes/${agreed.id}/entries`, said)
  expect(done.status).toBe(201)
  expect(await done.json()).toMatchObject({ entries: [{ standing: 'done', author: 'Person field' }] })
  const again = { standing: 'open', note: 'The mark had moved', author: 'x' }
  const anew = { ...said, note: 'Levelled again' }
  await Promise.all([again, anew].map((entry) => send('field', `/minutes/${agreed.id}/entries`, entry)))
  const { minutes, today } = (await (await ask('viewer', '/minutes')).json()) as MinuteList
  expect(today).toBe('2027-10-21')
  const one = minutes.find(({ id }) => id === agreed.id)
  expect(one?.entries).toHaveLength(3)
  expect(one?.owner).toBe('Site surveyor')
  const audited = await open.store.listAudit({ site, subjectKind: 'actionEntries', limit: 10 })
  expect(audited.map(({ subjectKey }) => subjectKey).toSorted()).toEqual(['[2,1]', '[2,2]', '[2,3]'])
})

test('what is sent again since its answer was lost is kept once', async () => {
  const text = 'Sent over a poor line'
  const sent = [0, 1].map(() => send('field', '/meetings/2/minutes', { ...action, text }))
  const [one, other] = (await Promise.all(
    (await Promise.all(sent)).map((answer) => answer.json()),
  )) as Minute[]
  expect(one).toEqual(other)
  const said = { standing: 'done', note: 'Done', author: 'x' }
  for (let time = 1; time <= 2; time++) await send('field', `/minutes/${one?.id}/entries`, said)
  const { minutes } = (await (await ask('viewer', '/minutes')).json()) as MinuteList
  const kept = minutes.filter((minute) => minute.text === text)
  expect(kept.map(({ entries }) => entries.length)).toEqual([1])
  const many = ['A', 'B', 'C'].map((word) => send('field', '/meetings/2/minutes', { ...action, text: word }))
  const made = (await Promise.all((await Promise.all(many)).map((answer) => answer.json()))) as Minute[]
  expect(new Set(made.map(({ id }) => id)).size).toBe(3)
})

test.each([
  [{ owner: null }, 'owner-missing'],
  [{ dueOn: null }, 'day-expected'],
  [{ dueOn: '2027-02-30' }, 'day-expected'],
  [{ dueOn: '2027-09-27' }, 'due-before-meeting'],
  [{ text: ' ' }, 'text-missing'],
  [{ places: ['PZ-99'] }, 'place-unknown'],
  [{ kind: 'note' as const, dueOn: null }, 'note-with-owner'],
  [{ kind: 'note' as const, owner: null }, 'note-with-day'],
])('a minute with %o is refused', async (changed, code) => {
  const answer = await send('engineer', '/meetings/2/minutes', { ...action, ...changed })
  expect(answer.status).toBe(400)
  expect(await codesOf(answer)).toEqual([code])
})

test('nothing is said of a note, nor of what is not there', async () => {
  const note = { ...action, kind: 'note', owner: null, dueOn: null }
  const { id } = (await (await send('engineer', '/meetings/2/minutes', note)).json()) as Minute
  const said = { standing: 'done', note: 'x', author: 'x' }
  expect(await codesOf(await send('field', `/minutes/${id}/entries`, said))).toEqual(['not-an-action'])
  expect((await send('field', '/minutes/999/entries', said)).status).toBe(404)
  expect((await send('field', '/meetings/999/minutes', action)).status).toBe(404)
})

test('a meeting from a folder is frozen at the first wish, by its own cut-off, and once', async () => {
  const model = await open.store.getSite(site)
  if (!model) throw new Error('the site is there')
  const planned = {
    id: 7,
    title: 'From the folder',
    heldAt: held,
    cutOffAt: cutOff + 5,
    previous: 2,
    // Of the server that the folder came from.
    frozenSet: 'e'.repeat(16),
    author: 'site folder',
    at: 0,
  }
  const shown = { meeting: 7, version: 1, board: 1, ...board('Plan'), author: 'site folder', at: 0 }
  await open.store.addRows(
    site,
    { meetings: [planned], boards: [shown] },
    { author: 'site folder', reason: 'test', atEpochMs: 0 },
  )
  const standing = async () =>
    ((await (await ask('viewer', '/meetings')).json()) as MeetingList).meetings.find(({ id }) => id === 7)
  expect((await standing())?.frozenSet).toBeNull()
  const [one, other] = await Promise.all(
    [0, 1].map(() => send('engineer', '/meetings/7/freeze', { author: 'x' })),
  )
  expect([one?.status, other?.status]).toEqual([200, 200])
  expect((await standing())?.frozenSet).toBe(setOf(cutOff + 5).id)
  const asked = frozen
  expect((await send('engineer', '/meetings/7/freeze', { author: 'x' })).status).toBe(200)
  expect(frozen).toBe(asked)
  const versions = await open.store.listVersions(site, 'meetings', '7')
  expect(versions.map(({ author }) => author)).toEqual(['site folder', 'Person engineer'])
})

test('a failure to freeze is said and leaves the meeting as it was', async () => {
  const alone = await openAccounts()
  await alone.join('engineer', site, 'engineer')
  const cookie = await alone.cookieOf('engineer')
  const answer = await alone.app.request(`${path}/meetings`, {
    method: 'POST',
    headers: { ...samePage, cookie },
    body: JSON.stringify(draft),
  })
  expect(answer.status).toBe(400)
  expect(((await answer.json()) as Problem).issues?.[0]?.message).toContain('no frozen data set')
  await alone.close()
})

test('a meeting whose frozen data are damaged is still listed, and does not keep the others from being', async () => {
  const find = freezing.find
  freezing.find = (of, id) =>
    id === draft.frozenSet
      ? Promise.reject(new FrozenPartDamaged(id, 'manifest', 'is not what its id says.'))
      : find(of, id)
  try {
    const answer = await ask('viewer', '/meetings')
    expect(answer.status).toBe(200)
    const { meetings } = (await answer.json()) as MeetingList
    expect(meetings.find(({ id }) => id === 2)?.frozenSet).toBe(draft.frozenSet)
    const another = await send('engineer', '/meetings', { ...draft, title: 'Over what is damaged' })
    expect(another.status).toBe(500)
    expect(await codesOf(another)).toEqual(['frozen-part-damaged'])
  } finally {
    freezing.find = find
  }
})

test('half of a character is refused in words, and nothing is saved', async () => {
  const answer = await send('engineer', '/meetings/2/minutes', { ...action, text: 'Look at it \ud83d' })
  expect(answer.status).toBe(400)
  expect(await codesOf(answer)).toEqual(['character-broken'])
})

test('a set with later data than a meeting says is not shown for it', async () => {
  const early = setOf(cutOff - 7 * 86_400_000)
  const named = async (frozenSet: string) => {
    await open.store.changeSite(
      site,
      (model) => ({
        ...model,
        meetings: model.meetings.map((row) => (row.id === 1 ? { ...row, frozenSet } : row)),
      }),
      { author: 'site folder', reason: 'from elsewhere', atEpochMs: 1 },
    )
    const { meetings } = (await (await ask('viewer', '/meetings')).json()) as MeetingList
    return meetings.find(({ id }) => id === 1)?.frozenSet
  }
  expect(await named(setOf(cutOff).id)).toBeNull()
  expect(await named(early.id)).toBe(early.id)
})
