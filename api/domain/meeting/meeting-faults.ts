import type { Issue } from '../outcome.ts'
import type { MeetingRow } from '../site/tables.ts'
import { longestTitle } from './board-faults.ts'

/** What is wrong with the meeting that the change is counted from; an issue's `column` is the place in the draft. */
export function previousIssues(
  meetings: readonly MeetingRow[],
  previous: number | null,
  cutOffEpochMs: number,
): readonly Issue[] {
  if (previous === null) return []
  const found = meetings.find(({ id }) => id === previous)
  if (found && found.cutOffAt < cutOffEpochMs) return []
  return [
    {
      code: found ? 'previous-not-earlier' : 'meeting-unknown',
      column: 'previous',
      value: String(previous),
      message: found
        ? `Meeting ${previous} has no earlier cut-off, so nothing can have changed since. Choose one whose data end before.`
        : `There is no meeting ${previous} at this site. Choose one that is listed, or none.`,
    },
  ]
}

/** What is wrong with a title without blanks at its ends. */
export const titleIssues = (title: string): readonly Issue[] =>
  title !== '' && title.length <= longestTitle
    ? []
    : [
        {
          code: 'title-expected',
          column: 'title',
          value: title.slice(0, longestTitle),
          expected: `1 to ${longestTitle} characters`,
          message: `Give the meeting a title of 1 to ${longestTitle} characters, by which it is found in the list.`,
        },
      ]

/** What is wrong with who enters it. */
export const authorIssues = (author: string): readonly Issue[] =>
  author !== ''
    ? []
    : [
        {
          code: 'author-missing',
          column: 'author',
          value: '',
          message: 'Nobody is named who enters it. Write your name.',
        },
      ]
