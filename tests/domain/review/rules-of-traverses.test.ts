import { describe, expect, test } from 'vitest'
import type { Trace } from '#domain/review/review-case.ts'
import { found, madeTraces, of, stepped, still } from './made-traces.ts'
import { fromEpochMs, hourMs } from './made-world.ts'

const { mark, world } = madeTraces()

describe('checksums of a traverse', () => {
  const weeks = 17
  const surveyed = (last: number): Trace[] =>
    Array.from({ length: 20 }, (_, depth) => ({
      ...world.trace({ measure: 'checksum-a', course: still, point: `IC-${depth}`, everyHours: 168 }),
      unit: 'mm',
      repeatability: 0.14,
      atEpochMs: Array.from({ length: weeks }, (_, week) => fromEpochMs + (week * 168 + depth / 60) * hourMs),
      // Creeps with the season by 0.1 mm a week.
      values: Array.from({ length: weeks }, (_, week) => 4 - 0.1 * week + (week === weeks - 1 ? last : 0)),
    }))
  const weigh = (last: number) =>
    found('face-checksum', world.caseOf(mark(stepped(8)), { checksums: surveyed(last) }))

  test('one that creeps bears the survey out; one that jumps in the last survey is the probe, by half of it at every depth', () => {
    expect(of(weigh(0), 'sensor')).toBe(-3)
    expect(of(weigh(0.8), 'sensor')).toBe(18)
    expect(weigh(0.8)[0]?.sentence).toContain('Over 20 depths that sums to 8.00 mm')
  })

  test('fewer than eight surveys have no usual checksum', () => {
    const few = surveyed(0).map((trace) => ({
      ...trace,
      atEpochMs: trace.atEpochMs.slice(0, 5),
      values: trace.values.slice(0, 5),
    }))
    expect(found('face-checksum', world.caseOf(mark(still), { checksums: few }))[0]?.stands).toBe('missing')
  })
})
