import { expect, test } from 'vitest'
import { readableLines, revisionLines, revisionRuns } from '#domain/report/revision-runs.ts'

const hour = 3_600_000
const value = (series: number, hours: number, before: number | null, after: number | null) => ({
  series,
  atEpochMs: Date.UTC(2027, 8, 1) + hours * hour,
  before,
  after,
  beforeRow: null,
  afterRow: null,
})

test('a run ends with its series, its reason, and a gap', () => {
  const values = [
    value(1, 0, 1, 2),
    value(1, 1, 1, 2),
    value(1, 2, null, 2),
    value(1, 9, null, 2),
    value(2, 9, 1, 2),
  ]
  const runs = revisionRuns(
    values,
    ({ before }) => (before === null ? 'came' : 'changed'),
    () => 3 * hour,
  )
  expect(runs.map(({ series, reason, values }) => [series, reason, values.length])).toEqual([
    [1, 'changed', 2],
    [1, 'came', 1],
    [1, 'came', 1],
    [2, 'changed', 1],
  ])
})

test('values stand one by one, or by the day of the site with how many they were', () => {
  const zone = 'Atlantic/Azores' // UTC in summer since 2027's clocks went forward; midnight is that of UTC here.
  const values = [value(1, 22, 1, 2), value(1, 23, 2, 4), value(1, 24, null, 5)]
  expect(revisionLines({ values }, zone, 'value')).toEqual(
    values.map(({ atEpochMs, before, after }) => ({ atEpochMs, readings: 1, before, after })),
  )
  expect(revisionLines({ values }, zone, 'day')).toEqual([
    { atEpochMs: values[0]?.atEpochMs, readings: 2, before: 1.5, after: 3 },
    { atEpochMs: values[2]?.atEpochMs, readings: 1, before: null, after: 5 },
  ])
  // By the clocks of Madrid, two hours ahead, all three lie on 2 September.
  expect(revisionLines({ values }, 'Europe/Madrid', 'day')).toHaveLength(1)
})

test('as many lines as a reader can take: values, then days of longer runs, then months', () => {
  const hours = (count: number, series = 1) => ({
    series,
    reason: 'changed' as const,
    values: Array.from({ length: count }, (_, hour) => value(series, hour, 1, 2)),
  })
  const told = (runs: Parameters<typeof readableLines>[0]) => {
    const { step, lines } = readableLines(runs, 'UTC')
    return [step, ...lines.map(({ length }) => length)]
  }
  expect(told([hours(400)])).toEqual(['value', 400])
  expect(told([hours(480), hours(24, 2)])).toEqual(['day', 20, 24])
  expect(told([hours(24 * 1501)]).slice(0, 2)).toEqual(['month', 50])
  const { lines } = readableLines([hours(24 * 1501)], 'UTC')
  expect(lines[0]?.reduce((sum, { readings }) => sum + readings, 0)).toBe(24 * 1501)
})
