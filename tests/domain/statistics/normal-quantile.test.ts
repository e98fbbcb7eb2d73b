import fc from 'fast-check'
import { expect, test } from 'vitest'
import { normalQuantile } from '#domain/statistics/normal-quantile.ts'

test('odd about one half, rising, infinite at the ends', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 0.5, noNaN: true }), (tail) => {
      expect(normalQuantile(tail)).toBeCloseTo(-normalQuantile(1 - tail), 8)
      expect(normalQuantile(tail * 0.999)).toBeLessThan(normalQuantile(tail))
    }),
    { seed: 13 },
  )
  expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY)
  expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY)
})
