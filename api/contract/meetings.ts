import { z } from 'zod'
import type { BoardsDraft, MeetingDraft } from '#domain/meeting/draft-meeting.ts'
import type { ActionEntryDraft, MinuteDraft } from '#domain/meeting/draft-minute.ts'
import { type Board, boardKinds, type Meeting } from '#domain/meeting/meeting.ts'
import { actionStandings, type Minute } from '#domain/meeting/minute.ts'
import type { Problem } from './problems.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const name = z.string().max(200, 'at most 200 characters')
const number = z.int().min(1)

const boardSchema: z.ZodType<Board> = z.strictObject({
  kind: z.enum(boardKinds),
  title: z.string().max(1000),
  address: z.string().max(20_000),
  seconds: z.number(),
})
/** How many there may be is judged with a sentence; this only bounds the work. */
const boards = z.array(boardSchema).max(1000)

/** `GET /api/sites/:site/meetings`, the last one held first. */
export interface MeetingList {
  readonly meetings: readonly Meeting[]
}

/** `POST /api/sites/:site/meetings`: over a frozen set that is there; answered with the `Meeting`. */
export const meetingDraftSchema: z.ZodType<MeetingDraft> = z.strictObject({
  title: z.string().max(1000),
  heldAtEpochMs: instant,
  frozenSet: z.string().regex(/^[0-9a-f]{16}$/, 'is not the name of a frozen set'),
  previous: number.nullable().optional(),
  boards,
  author: name,
})

/** `PUT /api/sites/:site/meetings/:meeting/boards`: another version; answered with the `Meeting`. */
export const boardsDraftSchema: z.ZodType<BoardsDraft> = z.strictObject({
  version: number,
  boards,
  author: name,
})

/** Answer of that with status 409, where another version was made since: the meeting as it stands, and what was sent. */
export interface BoardsConflict extends Problem {
  readonly latest: Meeting
  readonly sent: readonly Board[]
}

/** `POST /api/sites/:site/meetings/:meeting/freeze`: the data of a meeting that has none; answered with the `Meeting`. */
export const freezeMeetingSchema = z.strictObject({ author: name })

/** `GET /api/sites/:site/minutes`: of all meetings, open and overdue actions first. */
export interface MinuteList {
  readonly minutes: readonly Minute[]
  /** By which day actions are overdue, in the zone of the site (2027-09-14). */
  readonly today: string
}

/** `POST /api/sites/:site/meetings/:meeting/minutes`; answered with the `Minute`. */
export const minuteDraftSchema: z.ZodType<MinuteDraft> = z.strictObject({
  kind: z.enum(['note', 'action']),
  text: z.string().max(10_000),
  places: z.array(z.string().max(200)).max(1000),
  owner: name.nullable(),
  dueOn: z.string().max(40).nullable(),
  author: name,
})

/** `POST /api/sites/:site/minutes/:minute/entries`; answered with the `Minute`. */
export const actionEntryDraftSchema: z.ZodType<ActionEntryDraft> = z.strictObject({
  standing: z.enum(actionStandings),
  note: z.string().max(10_000),
  author: name,
})
