import { expect, test } from 'vitest'
import { boardListFaults } from '#domain/meeting/board-faults.ts'
import { nextBoards, nextMeeting } from '#domain/meeting/draft-meeting.ts'
import type { Board } from '#domain/meeting/meeting.ts'
import { latestBoards, meetingsOfSite } from '#domain/meeting/meetings-of-site.ts'
import { smallSite } from '../../contract/small-site.ts'

const board = (title: string): Board => ({
  kind: 'plan',
  title,
  address: 'site=small-quay',
  seconds: 20,
})
const draft = {
  title: ' September ',
  heldAtEpochMs: 50,
  frozenSet: 'a'.repeat(16),
  boards: [board('One'), board('Two')],
  author: ' A. Reed ',
}

function site(...cutOffs: number[]) {
  let model = smallSite()
  for (const [at, cutOff] of cutOffs.entries()) {
    const made = nextMeeting(model, { ...draft, heldAtEpochMs: at }, cutOff, at)
    if (!made.ok) throw new Error(made.issues[0]?.message)
    model = {
      ...model,
      meetings: [...model.meetings, ...made.value.meetings],
      boards: [...model.boards, ...made.value.boards],
    }
  }
  return model
}

test('the change is counted from the latest meeting with an earlier cut-off, whichever was made last', () => {
  const previous = (cutOff: number, ...cutOffs: number[]) => {
    const made = nextMeeting(site(...cutOffs), draft, cutOff, 0)
    return made.ok ? made.value.meetings[0]?.previous : made.issues
  }
  expect(previous(100)).toBeNull()
  expect(previous(100, 50)).toBe(1)
  expect(previous(100, 70, 50)).toBe(1)
  expect(previous(100, 50, 100, 200)).toBe(1)
  expect(previous(60, 50, 100)).toBe(1)
})

test('none may be said to be before it, and one that is not may not', () => {
  const model = site(50, 200)
  const made = (previous: number | null) => nextMeeting(model, { ...draft, previous }, 100, 0)
  expect(made(null)).toMatchObject({ ok: true, value: { meetings: [{ id: 3, previous: null }] } })
  expect(made(1)).toMatchObject({ ok: true, value: { meetings: [{ previous: 1 }] } })
  expect(made(2)).toMatchObject({ ok: false, issues: [{ code: 'previous-not-earlier' }] })
})

test('a meeting that is sent again since its answer was lost is the one that was made', () => {
  const again = nextMeeting(site(50), { ...draft, heldAtEpochMs: 0 }, 50, 9)
  expect(again).toEqual({ ok: true, value: { id: 1, meetings: [], boards: [] } })
})

test('every reason is told at once', () => {
  const made = nextMeeting(smallSite(), { ...draft, title: '', author: ' ', boards: [] }, 0, 0)
  expect(made.ok ? [] : made.issues.map(({ code }) => code)).toEqual([
    'title-expected',
    'author-missing',
    'boards-expected',
  ])
})

test('boards are the latest version in their order, earlier ones are kept', () => {
  const model = site(50)
  const next = nextBoards(model, { id: 1 }, { version: 1, boards: [board('Three')], author: 'B. Hale' }, 9)
  if (!next.ok) throw new Error(next.issues[0]?.message)
  const boards = [...next.value, ...model.boards.toReversed()]
  expect(latestBoards(boards, 1)).toEqual({ version: 2, author: 'B. Hale', boards: [board('Three')] })
  expect(latestBoards(model.boards.toReversed(), 1).boards.map(({ title }) => title)).toEqual(['One', 'Two'])
  // Sent again since its answer was lost: nothing is added, and nothing is in conflict.
  const again = { version: 1, boards: [board(' Three ')], author: 'B. Hale' }
  expect(nextBoards({ ...model, boards }, { id: 1 }, again, 9)).toEqual({ ok: true, value: [] })
  const stale = nextBoards(
    { ...model, boards },
    { id: 1 },
    { version: 1, boards: [board('x')], author: 'C' },
    9,
  )
  expect(stale).toMatchObject({ ok: false, issues: [{ code: 'boards-changed-meanwhile', expected: '2' }] })
  expect(meetingsOfSite({ ...model, boards })[0]).toMatchObject({
    title: 'September',
    author: 'A. Reed',
    version: 2,
  })
})

test('meetings are listed with the last one held first', () => {
  expect(meetingsOfSite(site(70, 50, 90)).map(({ id }) => id)).toEqual([3, 2, 1])
})

test('60 boards are taken, 61 are not, and a fault says of which board it is', () => {
  const some = (count: number) => Array.from({ length: count }, () => board('x'))
  expect(boardListFaults(some(60), 'small-quay')).toEqual([])
  expect(boardListFaults(some(61), 'small-quay')).toMatchObject([{ code: 'boards-expected', value: '61' }])
  const wrong = [board('x'), { ...board('x'.repeat(121)), seconds: 601 }, { ...board('x'), seconds: 7.5 }]
  expect(boardListFaults(wrong, 'small-quay').map(({ column }) => column)).toEqual([
    'boards.1.title',
    'boards.1.seconds',
    'boards.2.seconds',
  ])
})

test('one that is sent again with other boards is refused: none of them is dropped in silence', () => {
  const other = nextMeeting(site(50), { ...draft, heldAtEpochMs: 0, boards: [board('Three')] }, 50, 9)
  expect(other).toMatchObject({ ok: false, issues: [{ code: 'meeting-there', column: 'title' }] })
})
