import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { normalQuantile } from '#domain/statistics/normal-quantile.ts'
import { normalQuantiles } from '../../published/radio.ts'

describe(normalQuantiles.source, () => {
  test.each(normalQuantiles.rows)('$probability', ({ probability, quantile }) => {
    expect(Math.abs(normalQuantile(probability) - quantile)).toBeLessThanOrEqual(
      normalQuantiles.tolerance * (1 + Math.abs(quantile)),
    )
  })
})

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
