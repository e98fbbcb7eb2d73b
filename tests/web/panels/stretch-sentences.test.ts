import { expect, test } from 'vitest'
import { stretchSentences } from '../../../web/panels/stretch-sentences.ts'
import type { StretchTally } from '../../../web/views/time-history/stretch-tally.ts'

const hourMs = 3_600_000
const stretch = { fromEpochMs: Date.UTC(2027, 6, 1, 6), untilEpochMs: Date.UTC(2027, 6, 1, 12) }
const tally = (change: Partial<StretchTally> = {}): StretchTally => ({
  resolution: 'raw',
  readings: 6,
  withoutValue: 0,
  marked: 0,
  reached: null,
  watched: true,
  ...change,
})
const told = (one: StretchTally | null) => stretchSentences(one, stretch, ['Watch'], 'Europe/London')

test('a level reached within it is told, and that a verdict lowers none', () => {
  const reached = { level: 1, times: 2, firstEpochMs: stretch.fromEpochMs + hourMs }
  expect(told(tally({ withoutValue: 1, marked: 1, reached }))).toEqual([
    'Thu 1 Jul 2027 07:00 UTC+01:00 until before Thu 1 Jul 2027 13:00 UTC+01:00: 6 readings, 1 without a value.',
    'The automatic checks marked 1 reading of it.',
    'A trigger level was reached within it: Watch, by 2 readings at or beyond the first level, first at Thu 1 Jul 2027 08:00 UTC+01:00. A verdict lowers no level.',
  ])
})

test('no readings, no level in force and counting by hours are not told as nothing found', () => {
  expect(told(null)[0]).toContain('no readings are known in it')
  expect(told(tally({ watched: false }))[2]).toBe('No trigger level was in force within it.')
  expect(told(tally({ resolution: 'hour', withoutValue: null, marked: 2 }))).toMatchObject([
    expect.stringContaining('6 readings with a value, counted by whole hours'),
    'The automatic checks marked 2 hours of it.',
    'No trigger level was reached within it.',
  ])
})
