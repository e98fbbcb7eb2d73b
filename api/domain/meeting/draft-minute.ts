import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import type { ActionEntryRow, MinuteRow } from '../site/tables.ts'
import { authorIssues } from './meeting-faults.ts'
import type { ActionStanding, Minute } from './minute.ts'
import { isDay, siteDay } from './site-day.ts'

/** What a meeting wrote down, as somebody sends it. */
export type MinuteDraft = Pick<Minute, 'kind' | 'text' | 'places' | 'owner' | 'dueOn' | 'author'>

/** What is said of an action afterwards. */
export interface ActionEntryDraft {
  readonly standing: ActionStanding
  readonly note: string
  readonly author: string
}

/** Longest text of a minute, and most places that one is about. */
export const longestText = 2000
export const mostPlaces = 50
/** Longest note of an entry, and longest owner, characters. */
export const longestNote = 1000
export const longestOwner = 120

/** A row to add to the records; `saved`: the very same was saved before, and its answer was lost on the way. */
export interface NextRow<R> {
  readonly row: R
  readonly saved: boolean
}

/** The row that a draft becomes, or every reason why not; an issue's `column` is the place in the draft. */
export function nextMinute(
  model: Pick<SiteModel, 'facts' | 'meetings' | 'minutes' | 'points' | 'instruments'>,
  meeting: number,
  draft: MinuteDraft,
  atEpochMs: number,
): Outcome<NextRow<MinuteRow>> {
  const owner = draft.owner?.trim() || null
  const places = [...new Set(draft.places.map((place) => place.trim()))]
  const row = {
    id: Math.max(0, ...model.minutes.map(({ id }) => id)) + 1,
    meeting,
    kind: draft.kind,
    text: draft.text.trim(),
    places: places.join(';') || null,
    owner,
    dueOn: draft.dueOn?.trim() || null,
    author: draft.author.trim(),
    at: atEpochMs,
  }
  const known = new Set([...model.points, ...model.instruments].map(({ id }) => id))
  const heldAt = model.meetings.find(({ id }) => id === meeting)?.heldAt ?? -Infinity
  const issues = [...authorIssues(row.author), ...minuteFaults(row, known, heldAt, model.facts.timeZone)]
  if (issues.length > 0) return reject(...issues)
  const said = ['meeting', 'kind', 'text', 'places', 'owner', 'dueOn', 'author'] as const
  const saved = model.minutes.find((one) => said.every((name) => one[name] === row[name]))
  return accept(saved ? { row: saved, saved: true } : { row, saved: false })
}

/** Places of a minute as they stand in one cell. */
export const placesOf = (cell: string | null): readonly string[] =>
  (cell ?? '').split(';').flatMap((place) => place.trim() || [])

/** What is wrong with a minute; an issue's `column` is that of its table, and of a draft. */
export function minuteFaults(
  row: Pick<MinuteRow, 'kind' | 'text' | 'places' | 'owner' | 'dueOn'>,
  knownPlaces: ReadonlySet<string>,
  heldAtEpochMs: number,
  zone: string,
): readonly (Issue & { column: keyof MinuteRow })[] {
  const faults: (Issue & { column: keyof MinuteRow })[] = []
  const say = (column: keyof MinuteRow, code: string, value: string | null, message: string) =>
    faults.push({ column, code, value: (value ?? '').slice(0, 200), message })
  if (row.text === '') say('text', 'text-missing', '', 'Nothing is written down. Say what was agreed.')
  else if (row.text.length > longestText)
    say(
      'text',
      'text-too-long',
      row.text,
      `The text has ${row.text.length} characters; at most ${longestText} are taken. Write it in two.`,
    )
  const places = placesOf(row.places)
  if (places.length > mostPlaces)
    say(
      'places',
      'too-many-places',
      String(places.length),
      `It names ${places.length} points; at most ${mostPlaces} are taken. Name the instrument instead of its points.`,
    )
  for (const place of places.filter((one) => !knownPlaces.has(one)).slice(0, 10))
    say(
      'places',
      'place-unknown',
      place,
      `There is no measuring point or instrument "${place}" at this site. Choose one that is in the register.`,
    )
  if (row.kind === 'note') {
    if (row.owner !== null)
      say(
        'owner',
        'note-with-owner',
        row.owner,
        'A note has no owner. Make it an action, or leave the owner out.',
      )
    if (row.dueOn !== null)
      say('dueOn', 'note-with-day', row.dueOn, 'A note has no day. Make it an action, or leave the day out.')
    return faults
  }
  if (row.owner === null)
    say('owner', 'owner-missing', '', 'Nobody owns this action. Say who does it: a role or a name.')
  else if (row.owner.length > longestOwner)
    say('owner', 'owner-too-long', row.owner, `The owner has at most ${longestOwner} characters.`)
  const heldOn = Number.isFinite(heldAtEpochMs) ? siteDay(heldAtEpochMs, zone) : ''
  if (row.dueOn === null || !isDay(row.dueOn))
    say('dueOn', 'day-expected', row.dueOn, 'Say by which day it is to be done, as 2027-09-14.')
  else if (row.dueOn < heldOn)
    say(
      'dueOn',
      'due-before-meeting',
      row.dueOn,
      `It would be due on ${row.dueOn}, before the meeting on ${heldOn}. Choose that day or a later one.`,
    )
  return faults
}

/** The row by which something is said of an action, or every reason why not. */
export function nextActionEntry(
  model: Pick<SiteModel, 'minutes' | 'actionEntries'>,
  minute: number,
  draft: ActionEntryDraft,
  atEpochMs: number,
): Outcome<NextRow<ActionEntryRow>> {
  const own = model.actionEntries.filter((one) => one.minute === minute)
  const last = own.toSorted((one, other) => one.entry - other.entry).at(-1)
  const row: ActionEntryRow = {
    minute,
    entry: (last?.entry ?? 0) + 1,
    standing: draft.standing,
    note: draft.note.trim(),
    author: draft.author.trim(),
    at: atEpochMs,
  }
  const issues = [...authorIssues(row.author), ...entryFaults(row, model.minutes)]
  if (issues.length > 0) return reject(...issues)
  const said = ['standing', 'note', 'author'] as const
  return accept(
    last && said.every((name) => last[name] === row[name])
      ? { row: last, saved: true }
      : { row, saved: false },
  )
}

/** What is wrong with what is said of an action; an issue's `column` is that of its table, and of a draft. */
export function entryFaults(
  row: Pick<ActionEntryRow, 'minute' | 'note'>,
  minutes: readonly Pick<MinuteRow, 'id' | 'kind'>[],
): readonly (Issue & { column: keyof ActionEntryRow })[] {
  const faults: (Issue & { column: keyof ActionEntryRow })[] = []
  const about = minutes.find(({ id }) => id === row.minute)
  if (about?.kind !== 'action')
    faults.push({
      column: 'minute',
      code: about ? 'not-an-action' : 'minute-unknown',
      value: String(row.minute),
      message: about
        ? `Minute ${row.minute} is a note: nothing is to be done about it. Write an action instead.`
        : `There is no minute ${row.minute} at this site. Choose one that is listed.`,
    })
  if (row.note === '' || row.note.length > longestNote)
    faults.push({
      column: 'note',
      code: 'note-expected',
      value: row.note.slice(0, 200),
      expected: `1 to ${longestNote} characters`,
      message: `Say in 1 to ${longestNote} characters what was done, or why it is not done.`,
    })
  return faults
}
