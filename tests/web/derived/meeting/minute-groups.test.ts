import { expect, it } from 'vitest'
import type { Minute } from '#domain/meeting/minute.ts'
import { minuteGroups } from '../../../../web/derived/meeting/minute-groups.ts'

const minute = (id: number, more: Partial<Minute> = {}): Minute => ({
  id,
  site: 'small',
  meeting: 1,
  kind: 'action',
  text: `action ${id}`,
  places: [],
  owner: 'A. Tester',
  dueOn: '2027-09-14',
  author: 'A. Tester',
  atEpochMs: 0,
  entries: [],
  ...more,
})
const said = (standing: 'open' | 'done' | 'dropped') => [
  { standing, note: '', author: 'A. Tester', atEpochMs: 0 },
]

it('parts what is past its day, open, done and given up, and keeps the notes of the meeting', () => {
  const groups = minuteGroups(
    [
      minute(1, { dueOn: '2027-09-13' }),
      minute(2),
      minute(3, { dueOn: '2027-09-01' }),
      minute(4, { entries: said('done') }),
      minute(5, { entries: said('dropped') }),
      minute(6, { entries: [...said('done'), ...said('open')] }),
      minute(7, { kind: 'note', owner: null, dueOn: null }),
      minute(8, { kind: 'note', owner: null, dueOn: null, meeting: 2 }),
    ],
    1,
    '2027-09-14',
  )
  const ids = Object.fromEntries(
    Object.entries(groups).map(([name, list]: [string, readonly Minute[]]) => [
      name,
      list.map(({ id }) => id),
    ]),
  )
  // On its day an action is not overdue yet.
  expect(ids).toEqual({ overdue: [3, 1], open: [2, 6], done: [4], dropped: [5], notes: [7] })
})
