import { boardKinds } from '../../meeting/meeting.ts'
import { actionStandings } from '../../meeting/minute.ts'
import {
  choice,
  instant,
  maybeAbsent,
  number,
  numberOrNothing,
  table,
  text,
  textOrNothing,
} from '../column.ts'

export const meetings = table({
  file: 'meetings.csv',
  means: 'meetings, each over the data that had been received up to its cut-off',
  optional: true,
  key: ['id'],
  columns: {
    id: number('1, 2, 3 … of the site', { min: 1, whole: true }),
    title: text('what the meeting is called in the list'),
    heldAt: instant('when it is or was held'),
    cutOffAt: instant('nothing received after this instant is shown in it'),
    previous: numberOrNothing('meeting whose data the change is counted from; empty: none', {
      min: 1,
      whole: true,
    }),
    frozenSet: maybeAbsent(
      textOrNothing(
        'written by the server: its frozen data set; empty, or not of this server: not frozen yet',
      ),
    ),
    author: text('who made it'),
    at: instant('when it was made'),
  },
})

export const boards = table({
  file: 'boards.csv',
  means: 'screens of each meeting in their order; those of its highest version are shown',
  optional: true,
  key: ['meeting', 'version', 'board'],
  columns: {
    meeting: number('meeting, as in meetings.csv', { min: 1, whole: true }),
    version: number('1, 2, 3 … of its boards', { min: 1, whole: true }),
    board: number('1, 2, 3 … in order', { min: 1, max: 60, whole: true }),
    kind: choice('what it shows', boardKinds),
    title: text('what stands above it'),
    address: text('the view, as the query part of an address of this page, without ?'),
    seconds: number('how long it stands while boards follow one another by themselves', {
      min: 5,
      max: 600,
      whole: true,
    }),
    author: text('who put this version together'),
    at: instant('when'),
  },
})

export const minutes = table({
  file: 'minutes.csv',
  means: 'what meetings wrote down: statements, and actions that somebody owns until a day',
  optional: true,
  key: ['id'],
  columns: {
    id: number('1, 2, 3 … of the site', { min: 1, whole: true }),
    meeting: number('meeting, as in meetings.csv', { min: 1, whole: true }),
    kind: choice('a statement, or something to be done', ['note', 'action']),
    text: text('what was said or agreed'),
    places: textOrNothing(
      'measuring points and instruments that it is about, separated by semicolons; empty: the site',
    ),
    owner: textOrNothing('action: who does it; empty for a note'),
    dueOn: textOrNothing('action: by which day of the site, 2027-09-14; empty for a note'),
    author: text('who wrote it down'),
    at: instant('when'),
  },
})

export const actionEntries = table({
  file: 'action-entries.csv',
  means: 'what was said of actions after the meeting; the last one tells how an action stands',
  optional: true,
  key: ['minute', 'entry'],
  columns: {
    minute: number('action, as in minutes.csv', { min: 1, whole: true }),
    entry: number('1, 2, 3 … in order', { min: 1, whole: true }),
    standing: choice('how it stands since', actionStandings),
    note: text('what was done, or why it is not done'),
    author: text('who said so'),
    at: instant('when'),
  },
})
