import { expect, test } from 'vitest'
import { provisionalReadings } from '#domain/report/provisional-readings.ts'

const hour = 3_600_000

test('a reading outside every approval, or received after it, is provisional', () => {
  const readings = {
    atEpochMs: Float64Array.of(0, hour, 2 * hour, 3 * hour, 9 * hour),
    // Soon; soon; seven hours later, after the approval; soon, but outside; soon, beyond the stretch.
    receivedAfterSeconds: Float64Array.of(Number.NaN, Number.NaN, 7 * 3600, Number.NaN, Number.NaN),
  }
  const approved = [{ fromEpochMs: 0, untilEpochMs: 3 * hour, approvedAtEpochMs: 8 * hour }]
  const stretch = { fromEpochMs: 0, untilEpochMs: 9 * hour }
  expect(provisionalReadings(readings, approved, stretch)).toEqual({ all: 4, provisional: 2 })
  expect(provisionalReadings(readings, [], stretch)).toEqual({ all: 4, provisional: 4 })
})
