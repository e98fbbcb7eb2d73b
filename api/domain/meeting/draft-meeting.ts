import { accept, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import type { BoardRow, MeetingRow } from '../site/tables.ts'
import { boardListFaults } from './board-faults.ts'
import type { Board, Meeting } from './meeting.ts'
import { authorIssues, previousIssues, titleIssues } from './meeting-faults.ts'
import { latestBoards } from './meetings-of-site.ts'

/** A meeting as somebody proposes it, over a frozen set. */
export interface MeetingDraft {
  readonly title: string
  readonly heldAtEpochMs: number
  readonly frozenSet: string
  /** Meeting whose data the change is counted from; null: none; absent: the latest with an earlier cut-off. */
  readonly previous?: number | null | undefined
  readonly boards: readonly Board[]
  readonly author: string
}

/** Boards put together anew; `version`: which were looked at. */
export interface BoardsDraft {
  readonly version: number
  readonly boards: readonly Board[]
  readonly author: string
}

/** Code of the issue that other boards were saved since. */
export const boardsChanged = 'boards-changed-meanwhile'

type Meetings = Pick<SiteModel, 'facts' | 'meetings' | 'boards'>

/** What is to be added to the records; no rows: the very same was saved before, and its answer was lost on the way. */
export interface NextMeeting {
  readonly id: number
  readonly meetings: readonly MeetingRow[]
  readonly boards: readonly BoardRow[]
}

/** The rows that a draft becomes, or every reason why not; an issue's `column` is the place in the draft. */
export function nextMeeting(
  model: Meetings,
  draft: MeetingDraft,
  cutOffEpochMs: number,
  atEpochMs: number,
): Outcome<NextMeeting> {
  const id = Math.max(0, ...model.meetings.map((one) => one.id)) + 1
  const [title, author] = [draft.title.trim(), draft.author.trim()]
  const previous = draft.previous === undefined ? previousOf(model.meetings, cutOffEpochMs) : draft.previous
  const issues = [
    ...titleIssues(title),
    ...authorIssues(author),
    ...previousIssues(model.meetings, previous, cutOffEpochMs),
    ...boardListFaults(draft.boards, model.facts.id),
  ]
  if (issues.length > 0) return reject(...issues)
  const saved = model.meetings.find(
    (one) =>
      one.title === title &&
      one.heldAt === draft.heldAtEpochMs &&
      one.frozenSet === draft.frozenSet &&
      one.author === author,
  )
  if (
    saved &&
    sameBoards(rowsOf(draft.boards, id, 1, author, atEpochMs), firstBoards(model.boards, saved.id))
  )
    return accept({ id: saved.id, meetings: [], boards: [] })
  if (saved)
    return reject({
      code: 'meeting-there',
      column: 'title',
      value: title,
      message: `You made meeting ${saved.id} of this title, time and data with other boards; nothing was changed of it. Change its boards, or give this meeting another title.`,
    })
  return accept({
    id,
    meetings: [
      {
        id,
        title,
        heldAt: draft.heldAtEpochMs,
        cutOffAt: cutOffEpochMs,
        previous,
        frozenSet: draft.frozenSet,
        author,
        at: atEpochMs,
      },
    ],
    boards: rowsOf(draft.boards, id, 1, author, atEpochMs),
  })
}

/**
 * The next version of a meeting's boards; refused where the one looked at is not the latest any more. None: the very
 * same boards are the latest already.
 */
export function nextBoards(
  model: Meetings,
  meeting: Pick<Meeting, 'id'>,
  draft: BoardsDraft,
  atEpochMs: number,
): Outcome<readonly BoardRow[]> {
  const author = draft.author.trim()
  const latest = latestBoards(model.boards, meeting.id)
  const issues = [...authorIssues(author), ...boardListFaults(draft.boards, model.facts.id)]
  const rows = rowsOf(draft.boards, meeting.id, latest.version + 1, author, atEpochMs)
  if (issues.length === 0 && sameBoards(rows, latest.boards)) return accept([])
  if (draft.version !== latest.version)
    issues.push({
      code: boardsChanged,
      column: 'version',
      value: String(draft.version),
      expected: String(latest.version),
      message: `${latest.author} saved version ${latest.version} of these boards since you opened version ${draft.version}. Look at what was saved, then save yours over it or leave them.`,
    })
  return issues.length > 0 ? reject(...issues) : accept(rows)
}

const firstBoards = (rows: readonly BoardRow[], meeting: number): readonly BoardRow[] =>
  rows
    .filter((row) => row.meeting === meeting && row.version === 1)
    .toSorted((one, other) => one.board - other.board)

const sameBoards = (one: readonly Board[], other: readonly Board[]): boolean =>
  one.length === other.length &&
  one.every((board, at) =>
    (['kind', 'title', 'address', 'seconds'] as const).every((name) => board[name] === other[at]?.[name]),
  )

/** The latest meeting with an earlier cut-off; null: there is none. */
export function previousOf(meetings: readonly MeetingRow[], cutOffEpochMs: number): number | null {
  const earlier = meetings.filter(({ cutOffAt }) => cutOffAt < cutOffEpochMs)
  return earlier.toSorted((one, other) => other.cutOffAt - one.cutOffAt || other.id - one.id)[0]?.id ?? null
}

const rowsOf = (
  boards: readonly Board[],
  meeting: number,
  version: number,
  author: string,
  at: number,
): readonly BoardRow[] =>
  boards.map((board, index) => ({
    meeting,
    version,
    board: index + 1,
    kind: board.kind,
    title: board.title.trim(),
    address: board.address,
    seconds: board.seconds,
    author,
    at,
  }))
