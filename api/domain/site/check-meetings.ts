import { groupBy } from '../group-by.ts'
import { boardFaults } from '../meeting/board-faults.ts'
import { entryFaults, minuteFaults } from '../meeting/draft-minute.ts'
import { previousIssues, titleIssues } from '../meeting/meeting-faults.ts'
import type { Issue } from '../outcome.ts'
import type { SiteFacts } from './site.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import type { Row } from './tables.ts'

type MeetingTable = 'meetings' | 'boards' | 'minutes' | 'actionEntries'

/** Meetings have boards that lead into the page; minutes are of a meeting, about what exists; entries are about actions. */
export function checkMeetings(site: SiteReadings, facts: SiteFacts | null): readonly Issue[] {
  const meetings = site.meetings.sound.map(({ row }) => row)
  const minutes = site.minutes.sound.map(({ row }) => row)
  const heldAt = new Map(meetings.map(({ id, heldAt }) => [id, heldAt]))
  const boardsOf = groupBy(site.boards.sound, ({ row }) => row.meeting)
  const places = new Set([...site.points.names.keys(), ...site.instruments.names.keys()])
  const unknownMeeting = (table: 'boards' | 'minutes', line: number, meeting: number): readonly Issue[] =>
    heldAt.has(meeting)
      ? []
      : [
          {
            ...cellIssue(table, line, 'meeting', meeting),
            code: 'meeting-unknown',
            message: `There is no meeting ${meeting} in ${site.meetings.file}. Name one that is there, or add it.`,
          },
        ]
  return [
    ...site.meetings.sound.flatMap(({ line, row }) => [
      ...at('meetings', line, titleIssues(row.title)),
      ...at('meetings', line, previousIssues(meetings, row.previous, row.cutOffAt)),
      ...(boardsOf.has(row.id) || site.boards.unsound.length > 0
        ? []
        : [
            {
              ...cellIssue('meetings', line, 'id', row.id),
              code: 'boards-expected',
              message: `Meeting ${row.id} has no board in ${site.boards.file}. Give it at least one.`,
            },
          ]),
    ]),
    ...site.boards.sound.flatMap(({ line, row }) => [
      ...unknownMeeting('boards', line, row.meeting),
      ...(facts ? at('boards', line, boardFaults(row, facts.id)) : []),
    ]),
    ...site.minutes.sound.flatMap(({ line, row }) => [
      ...unknownMeeting('minutes', line, row.meeting),
      ...at(
        'minutes',
        line,
        minuteFaults(row, places, heldAt.get(row.meeting) ?? -Infinity, facts?.timeZone ?? 'UTC'),
      ),
    ]),
    ...site.actionEntries.sound.flatMap(({ line, row }) =>
      site.minutes.unsound.length > 0 ? [] : at('actionEntries', line, entryFaults(row, minutes)),
    ),
  ]
}

/** Faults of a row as issues of its file and line. */
const at = <N extends MeetingTable>(table: N, line: number, faults: readonly Issue[]): readonly Issue[] =>
  faults.map((fault) => ({
    ...cellIssue(table, line, fault.column as keyof Row<N> & string, fault.value ?? null),
    ...fault,
  }))
