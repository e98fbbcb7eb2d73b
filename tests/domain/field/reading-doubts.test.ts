import { expect, test } from 'vitest'
import { readingDoubts } from '#domain/field/reading-doubts.ts'

const day = 86_400_000
/** A standpipe dipped weekly, level in metres on the site datum. */
const earlier = [3.02, 3.05, 3.01, 3.08, 3.04].map((value, week) => ({ atEpochMs: week * 7 * day, value }))
const reading = (value: number | null, tenfold: readonly [number, number] = [0, 0]) => ({
  atEpochMs: 40 * day,
  value,
  unit: 'm',
  decimals: 2,
  rangeLow: -18,
  rangeHigh: 5,
  earlier,
  tenfold: [
    { factor: 10 as const, value: tenfold[0] },
    { factor: 0.1 as const, value: tenfold[1] },
  ],
  predicted: null,
})
const codes = (of: ReturnType<typeof reading>) => readingDoubts(of).map(({ code }) => code)

test('a reading like those before is not doubted, nor is a slow change', () => {
  expect(codes(reading(3.06))).toEqual([])
  expect(codes(reading(3.2))).toEqual([])
})

test('a slipped decimal point is told as one, because moving it back lands near the last value', () => {
  // Depth to water 1.56 m typed as 15.6 m below a collar at 4.6 m.
  expect(codes(reading(-11, [-151.4, 3.04]))).toEqual(['digit-slipped'])
  expect(readingDoubts(reading(-11, [-151.4, 3.04]))[0]?.sentence).toContain(
    'to the left this one would be 3.04 m',
  )
})

test('a great step that no slip explains is asked about and not refused', () => {
  expect(codes(reading(1.1, [-30, 4.4]))).toEqual(['unlike-earlier'])
})

test('what the sensor cannot measure, no value, nothing earlier and an expectation are each said', () => {
  expect(codes(reading(5.4, [90, 50]))).toEqual(['out-of-range', 'unlike-earlier'])
  expect(codes(reading(null))).toEqual(['no-value'])
  expect(codes({ ...reading(3), earlier: [] })).toEqual(['nothing-earlier'])
  expect(readingDoubts({ ...reading(3.06), predicted: { low: 1, high: 2 } })[0]?.code).toBe(
    'unlike-predicted',
  )
})

test('later values are not looked at: a reading written down afterwards is held against its own past', () => {
  const later = { ...reading(3.06), earlier: [...earlier, { atEpochMs: 60 * day, value: -9 }] }
  expect(codes(later)).toEqual([])
})
