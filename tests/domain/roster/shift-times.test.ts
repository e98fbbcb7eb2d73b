import { expect, test } from 'vitest'
import { parseDay, parseTimeOfDay, parseWeekdays, weekdayOf } from '#domain/roster/shift-times.ts'

test.each([
  ['mon-fri', [0, 1, 2, 3, 4]],
  ['sat;sun', [5, 6]],
  ['Fri - Mon', [0, 4, 5, 6]],
  ['mon-wed; fri', [0, 1, 2, 4]],
  ['sun', [6]],
  ['', null],
  ['mon-', null],
  ['mon-tue-wed', null],
  ['monday', null],
  ['mon,tue', null],
])('weekdays of "%s" are %o', (text, expected) => {
  const days = parseWeekdays(text)
  expect(days && [...days].sort()).toEqual(expected)
})

test.each([
  ['07:00', 420],
  ['00:00', 0],
  ['23:59', 1439],
  ['24:00', null],
  ['7:00', null],
  ['07:60', null],
  ['', null],
])('"%s" is %s minutes after midnight', (text, expected) => {
  expect(parseTimeOfDay(text)).toBe(expected)
})

test('days and weekdays: 1 January 1970 was a Thursday, 25 December 2027 is a Saturday', () => {
  expect(parseDay('1970-01-01')).toBe(0)
  expect(weekdayOf(0)).toBe(3)
  expect(weekdayOf(parseDay('2027-12-25') ?? 0)).toBe(5)
  expect([parseDay('2027-02-30'), parseDay('2027-13-01'), parseDay('25.12.2027')]).toEqual([null, null, null])
})
