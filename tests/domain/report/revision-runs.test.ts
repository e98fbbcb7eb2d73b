import { expect, test } from 'vitest'
import { revisionLines, revisionRuns } from '#domain/report/revision-runs.ts'

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

test('few values stand one by one; many by the day of the site, with how many they were', () => {
  const zone = 'Atlantic/Azores' // UTC in summer since 2027's clocks went forward; midnight is that of UTC here.
  const values = [value(1, 22, 1, 2), value(1, 23, 2, 4), value(1, 24, null, 5)]
  expect(revisionLines({ values }, zone, 3)).toEqual(
    values.map(({ atEpochMs, before, after }) => ({ atEpochMs, readings: 1, before, after })),
  )
  expect(revisionLines({ values }, zone, 2)).toEqual([
    { atEpochMs: values[0]?.atEpochMs, readings: 2, before: 1.5, after: 3 },
    { atEpochMs: values[2]?.atEpochMs, readings: 1, before: null, after: 5 },
  ])
  // By the clocks of Madrid, two hours ahead, all three lie on 2 September.
  expect(revisionLines({ values }, 'Europe/Madrid', 2)).toHaveLength(1)
})
