import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { keepMeetings } from '../../api/keep-meetings.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import type { Store } from '../../api/store/store.ts'
import { smallSite } from '../contract/small-site.ts'

let folder: string
let store: Store

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keep-meetings-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  await store.putSite(fromFolder, { author: folderAuthor, reason: 'first load', atEpochMs: 0 })
})
afterEach(async () => {
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

const meeting = (id: number, title = `Meeting ${id}`) => ({
  id,
  title,
  heldAt: id * 1000,
  cutOffAt: id * 1000,
  previous: null,
  author: 'A. Reed',
  at: 0,
})
const board = (of: number, version = 1) => ({
  meeting: of,
  version,
  board: 1,
  kind: 'plan' as const,
  title: 'The site',
  address: 'site=small-quay',
  seconds: 20,
  author: 'A. Reed',
  at: 0,
})
const minute = {
  id: 1,
  meeting: 1,
  kind: 'action' as const,
  text: 'Look at it',
  places: null,
  owner: 'A. Reed',
  dueOn: '2027-09-14',
  author: 'A. Reed',
  at: 0,
}
const entry = { minute: 1, entry: 1, standing: 'done' as const, note: 'Looked at', author: 'B. Hale', at: 0 }
const fromFolder: SiteModel = { ...smallSite(), meetings: [meeting(1)], boards: [board(1)] }
const inPage = { author: 'B. Hale', reason: 'in the page', atEpochMs: 1 }

test('what was made in the page stays when the folder is loaded again', async () => {
  await store.addRows(
    'small-quay',
    {
      meetings: [meeting(2)],
      boards: [board(1, 2), board(2)],
      minutes: [minute],
      actionEntries: [entry],
    },
    inPage,
  )
  const kept = await keepMeetings(store, fromFolder)
  if (!kept.ok) throw new Error(kept.issues[0]?.message)
  expect(kept.value.meetings.map(({ id }) => id)).toEqual([1, 2])
  expect(kept.value.boards.map(({ meeting: of, version }) => [of, version])).toEqual([
    [1, 1],
    [1, 2],
    [2, 1],
  ])
  expect([kept.value.minutes, kept.value.actionEntries].map(({ length }) => length)).toEqual([1, 1])
  // What came with the folder and is gone from it goes.
  const emptied = await keepMeetings(store, smallSite())
  expect(emptied.ok && emptied.value.meetings.map(({ id }) => id)).toEqual([2])
})

test('a folder that says something else under a number of the page is refused', async () => {
  await store.addRows('small-quay', { meetings: [meeting(2)], boards: [board(2)], minutes: [minute] }, inPage)
  const with2 = (title: string) => ({ ...fromFolder, meetings: [meeting(1), meeting(2, title)] })
  const other = await keepMeetings(store, with2('Another'))
  expect(other).toMatchObject({ ok: false, issues: [{ code: 'meeting-entered-otherwise', value: '2' }] })
  expect((await keepMeetings(store, with2('Meeting 2'))).ok).toBe(true)
  const otherText = await keepMeetings(store, { ...fromFolder, minutes: [{ ...minute, text: 'x' }] })
  expect(otherText).toMatchObject({ ok: false, issues: [{ file: 'minutes.csv' }] })
})

test('a meeting of the folder stays frozen, and its cut-off where it was', async () => {
  const frozenSet = 'a'.repeat(16)
  const freeze = (model: SiteModel) => ({
    ...model,
    meetings: model.meetings.map((row) => ({ ...row, frozenSet })),
  })
  await store.changeSite('small-quay', freeze, inPage)
  const again = await keepMeetings(store, fromFolder)
  expect(again.ok && again.value.meetings.map((row) => row.frozenSet)).toEqual([frozenSet])
  const moved = await keepMeetings(store, {
    ...fromFolder,
    meetings: [{ ...meeting(1), cutOffAt: 5 }],
  })
  expect(moved).toMatchObject({ ok: false, issues: [{ code: 'frozen-cut-off-moved' }] })
})
