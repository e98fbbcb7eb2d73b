import { expect, test } from 'vitest'
import { lastWholePeriod, reportsDue } from '#domain/report/report-period.ts'

const hours = ({ fromEpochMs, untilEpochMs }: { fromEpochMs: number; untilEpochMs: number }) =>
  (untilEpochMs - fromEpochMs) / 3_600_000
const madrid = 'Europe/Madrid'

// Summer time in the EU begins on the last Sunday of March and ends on the last Sunday of October, at 01:00 UTC
// (Directive 2000/84/EC): in 2027 on 28 March and 31 October.
test('a week or month in which the clocks change has an hour less or more', () => {
  const week = lastWholePeriod('weekly', Date.UTC(2027, 2, 29, 12), madrid)
  expect(week).toEqual({ fromEpochMs: Date.UTC(2027, 2, 21, 23), untilEpochMs: Date.UTC(2027, 2, 28, 22) })
  expect(hours(week)).toBe(167)
  const october = lastWholePeriod('monthly', Date.UTC(2027, 10, 1, 12), madrid)
  expect(october).toEqual({ fromEpochMs: Date.UTC(2027, 8, 30, 22), untilEpochMs: Date.UTC(2027, 9, 31, 23) })
  expect(hours(october)).toBe(31 * 24 + 1)
})

test('a month ends when it does on site, not in UTC; January follows December', () => {
  const lastMinute = Date.UTC(2027, 8, 30, 21, 59)
  expect(lastWholePeriod('monthly', lastMinute, madrid).untilEpochMs).toBe(Date.UTC(2027, 7, 31, 22))
  expect(lastWholePeriod('monthly', lastMinute + 60_000, madrid).untilEpochMs).toBe(Date.UTC(2027, 8, 30, 22))
  expect(lastWholePeriod('monthly', Date.UTC(2028, 0, 5), 'UTC')).toEqual({
    fromEpochMs: Date.UTC(2027, 11, 1),
    untilEpochMs: Date.UTC(2028, 0, 1),
  })
})

test('a period is due until a report of its kind tells of all of it', () => {
  // 6 October 2027 was a Wednesday.
  const at = Date.UTC(2027, 9, 6, 9)
  expect(reportsDue([], at, 'UTC').map(({ kind }) => kind)).toEqual(['weekly', 'monthly'])
  const september = { fromEpochMs: Date.UTC(2027, 8, 1), untilEpochMs: Date.UTC(2027, 9, 1) }
  const monthly = { kind: 'monthly', ...september } as const
  expect(reportsDue([monthly], at, 'UTC')).toEqual([
    { kind: 'weekly', fromEpochMs: Date.UTC(2027, 8, 27), untilEpochMs: Date.UTC(2027, 9, 4) },
  ])
  const lastDay = { ...monthly, fromEpochMs: Date.UTC(2027, 8, 30) }
  expect(reportsDue([lastDay], at, 'UTC').map(({ kind }) => kind)).toEqual(['weekly', 'monthly'])
  const onRequest = { kind: 'on-request', fromEpochMs: 0, untilEpochMs: at } as const
  expect(reportsDue([onRequest], at, 'UTC')).toHaveLength(2)
})
