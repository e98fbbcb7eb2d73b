import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import type { Minute } from '#domain/meeting/minute.ts'
import { openActionsSentence, standingSentence } from '#domain/meeting/minute-sentences.ts'
import { byAttention, isOverdue, minutesOfSite, standingOf } from '#domain/meeting/minutes-of-site.ts'
import { daysBetween, isDay, siteDay } from '#domain/meeting/site-day.ts'
import { smallSite } from '../../contract/small-site.ts'

const entry = (standing: 'open' | 'done' | 'dropped') => ({
  standing,
  note: 'said',
  author: 'A. Reed',
  atEpochMs: 0,
})
const action = (id: number, dueOn: string, ...standings: ('open' | 'done' | 'dropped')[]): Minute => ({
  id,
  site: 'small-quay',
  meeting: 1,
  kind: 'action',
  text: 'Look at it',
  places: [],
  owner: 'A. Reed',
  dueOn,
  author: 'A. Reed',
  atEpochMs: 0,
  entries: standings.map(entry),
})
const note: Minute = { ...action(9, ''), kind: 'note', owner: null, dueOn: null }
const today = '2027-10-31'

describe('how an action stands', () => {
  it('is what was said of it last', () => {
    expect(standingOf(action(1, today))).toBe('open')
    expect(standingOf(action(1, today, 'done'))).toBe('done')
    expect(standingOf(action(1, today, 'done', 'open'))).toBe('open')
    expect(standingOf(note)).toBeNull()
  })

  it('is overdue from the day after its own', () => {
    expect(isOverdue(action(1, '2027-10-31'), today)).toBe(false)
    expect(isOverdue(action(1, '2027-10-30'), today)).toBe(true)
    expect(isOverdue(action(1, '2027-10-30', 'dropped'), today)).toBe(false)
    expect(isOverdue(note, today)).toBe(false)
  })

  it('is said in words', () => {
    expect(standingSentence(action(1, '2027-10-30'), today)).toBe('overdue by 1 day, due 30 Oct 2027')
    expect(standingSentence(action(1, '2027-09-30'), today)).toBe('overdue by 31 days, due 30 Sep 2027')
    expect(standingSentence(action(1, today), today)).toBe('open, due today, 31 Oct 2027')
    expect(standingSentence(action(1, '2027-11-01'), today)).toBe('open, due 1 Nov 2027')
    expect(standingSentence(action(1, '2027-10-01', 'done'), today)).toBe('done, was due 1 Oct 2027')
    expect(standingSentence(note, today)).toBe('')
    expect(openActionsSentence([action(1, '2027-10-30'), action(2, today), note], today)).toBe(
      '2 open actions, 1 of them overdue',
    )
    const late = [action(1, '2027-10-30'), action(2, '2027-10-29')]
    expect(openActionsSentence(late, today)).toBe('2 open actions, all overdue')
    expect(openActionsSentence(late.slice(1), today)).toBe('1 open action, overdue')
    expect(openActionsSentence([note], today)).toBe('no action was agreed')
    expect(openActionsSentence([action(1, today, 'done')], today)).toBe('no open action')
  })
})

test('overdue ones come first, then open ones by day, then what is settled', () => {
  const listed = [
    action(1, '2027-12-01'),
    action(2, '2027-10-01', 'done'),
    note,
    action(3, '2027-10-20'),
    action(4, today),
    action(5, '2027-10-02'),
    action(6, '2027-10-02', 'dropped', 'open'),
  ]
  expect(byAttention(listed, today).map(({ id }) => id)).toEqual([5, 6, 3, 4, 1, 9, 2])
})

const days = fc
  .integer({ min: 0, max: 60_000 })
  .map((day) => new Date(day * 86_400_000).toISOString().slice(0, 10))
const minutes = fc.uniqueArray(
  fc
    .tuple(
      fc.integer({ min: 1, max: 500 }),
      days,
      fc.array(fc.constantFrom('open' as const, 'done' as const), { maxLength: 3 }),
    )
    .map(([id, dueOn, standings]) => action(id, dueOn, ...standings)),
  { selector: ({ id }) => id },
)

test('the order loses nothing and does not depend on the one before', () => {
  fc.assert(
    fc.property(minutes, days, (some, day) => {
      const ordered = byAttention(some, day)
      expect(byAttention(some.toReversed(), day)).toEqual(ordered)
      expect(ordered.map(({ id }) => id).toSorted()).toEqual(some.map(({ id }) => id).toSorted())
      const overdue = ordered.map((one) => isOverdue(one, day))
      expect(overdue.lastIndexOf(true)).toBe(overdue.filter(Boolean).length - 1)
    }),
    { seed: 7 },
  )
})

test('what was said of an action is folded in its own order, whatever order the rows have', () => {
  const row = (minute: number, entry: number, note: string) => ({
    minute,
    entry,
    standing: 'open' as const,
    note,
    author: 'A. Reed',
    at: 0,
  })
  const [folded] = minutesOfSite({
    ...smallSite(),
    minutes: [
      {
        id: 3,
        meeting: 1,
        kind: 'action',
        text: 'Do',
        places: 'PZ-1; ST-1',
        owner: 'A. Reed',
        dueOn: today,
        author: 'A. Reed',
        at: 0,
      },
    ],
    actionEntries: [row(3, 2, 'second'), row(4, 1, 'of another'), row(3, 1, 'first')],
  })
  expect(folded?.entries.map(({ note: said }) => said)).toEqual(['first', 'second'])
  expect(folded?.places).toEqual(['PZ-1', 'ST-1'])
})

describe('the day of the site', () => {
  it('is that of its own clocks', () => {
    // Atlantic/Azores is an hour behind UTC in winter, even with it in summer (IANA time zone database).
    expect(siteDay(Date.UTC(2027, 11, 1, 0, 30), 'Atlantic/Azores')).toBe('2027-11-30')
    expect(siteDay(Date.UTC(2027, 6, 1, 0, 30), 'Atlantic/Azores')).toBe('2027-07-01')
    expect(siteDay(Date.UTC(2027, 11, 1, 0, 30), 'Asia/Tokyo')).toBe('2027-12-01')
  })

  it('is written as the calendar has it', () => {
    for (const day of ['2027-02-28', '2028-02-29', '1950-01-01', '2199-12-31'])
      expect([day, isDay(day)]).toEqual([day, true])
    for (const day of [
      '2027-02-29',
      '2027-2-28',
      '2027-13-01',
      '27-01-01',
      '2027-01-01T00:00',
      '2300-01-01',
      '',
    ])
      expect([day, isDay(day)]).toEqual([day, false])
    expect(daysBetween('2027-10-30', '2027-11-02')).toBe(3)
    expect(daysBetween('2027-11-02', '2027-10-30')).toBe(-3)
  })
})
