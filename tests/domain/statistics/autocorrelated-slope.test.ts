import { expect, test } from 'vitest'
import { autocorrelatedSlopeError, lagsToLookOver } from '#domain/statistics/autocorrelated-slope.ts'

test('by hand: x −1, 0, 1 with residuals 1, −2, 1', () => {
  // Scores −1, 0, 1: with no lag their squares are 2, over (Σx²)² = 4, times n / (n − 2) = 3.
  expect(autocorrelatedSlopeError([-1, 0, 1], [1, -2, 1], 0, 2)).toBeCloseTo(Math.sqrt((2 * 3) / 4), 12)
  // Lag 1 adds nothing (each product has the 0 in it), lag 2 with weight 1/3 adds 2 · 1/3 · −1.
  expect(autocorrelatedSlopeError([-1, 0, 1], [1, -2, 1], 2, 2)).toBeCloseTo(
    Math.sqrt(((2 - 2 / 3) * 3) / 4),
    12,
  )
})

test('residuals that hang together make it wider, and an exact fit has none', () => {
  const x = Array.from({ length: 200 }, (_, at) => Math.sin(at / 9))
  const alike = x.map((_, at) => Math.sin(at / 11))
  const alone = autocorrelatedSlopeError(x, alike, 0, 2) ?? 0
  expect(autocorrelatedSlopeError(x, alike, 24, 2)).toBeGreaterThan(1.5 * alone)
  expect(
    autocorrelatedSlopeError(
      x,
      x.map(() => 0),
      24,
      2,
    ),
  ).toBe(0)
})

test('edges: nothing left over, or an x that does not vary, is null and never NaN', () => {
  expect(autocorrelatedSlopeError([1, -1], [0, 0], 4, 2)).toBeNull()
  expect(autocorrelatedSlopeError([0, 0, 0], [1, 2, 3], 4, 2)).toBeNull()
})

test('a day of hourly readings is looked over, never more than a quarter of them', () => {
  expect(lagsToLookOver(720, 1)).toBe(24)
  expect(lagsToLookOver(720, 1, 48)).toBe(48)
  expect(lagsToLookOver(40, 1)).toBe(10)
  expect(lagsToLookOver(720, 24)).toBe(6)
  expect(lagsToLookOver(100, 0)).toBe(4)
})
