import { expect, test } from 'vitest'
import { isLate } from '#domain/levels/lateness.ts'

test.each([
  ['never read', null, 0, true],
  ['just read', 1_000_000, 1_000_000, false],
  ['exactly as old as allowed', 0, 120 * 60_000, false],
  ['a moment older', 0, 120 * 60_000 + 1, true],
  ['stamped ahead', 1_000_001, 1_000_000, false],
])('%s', (_what, last, now, late) => {
  expect(isLate(last, now, 120)).toBe(late)
})
