import { describe, expect, it } from 'vitest'
import { fitLine, lineAt, lineIntervals } from '#domain/statistics/least-squares.ts'
import { fitPlane } from '#domain/statistics/multiple-regression.ts'
import { theilSen } from '#domain/statistics/trend.ts'
import { randomFrom } from './random-values.ts'

const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5]
const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68]

const line = (x: readonly number[], y: readonly number[]) => {
  const fit = fitLine(x, y)
  if (!fit.ok) throw new Error(fit.issues[0]?.message)
  return fit.value
}

describe('fitLine', () => {
  it('is the same line whatever instant is called 0', () => {
    const day = 86_400_000
    const at = x.map((days) => 1_700_000_000_000 + days * day)
    expect(line(at, y).slope * day).toBeCloseTo(line(x, y).slope, 10)
    expect(lineAt(line(at, y), at[0] as number).value).toBeCloseTo(lineAt(line(x, y), 10).value, 5)
  })

  it('refuses one instant and what is not a number', () => {
    expect(fitLine([5, 5, 5], [1, 2, 3]).ok).toBe(false)
    expect(fitLine([1, 2, Number.NaN], [1, 2, 3]).ok).toBe(false)
  })

  it('agrees with the fit of several columns', () => {
    const plane = fitPlane([x], y)
    const fit = line(x, y)
    expect(plane.ok && plane.value.coefficients[1]).toBeCloseTo(fit.slope, 12)
    expect(plane.ok && plane.value.standardErrors[0]).toBeCloseTo(fit.interceptStandardError, 12)
  })
})

it('fitPlane refuses columns that repeat each other and too few rows', () => {
  expect(fitPlane([x, x.map((one) => 3 * one - 1)], y).ok).toBe(false)
  expect(fitPlane([x.map(() => 4)], y).ok).toBe(false)
  expect(fitPlane([[1, 2]], [1, 2]).ok).toBe(false)
})

describe('intervals at 95 %', () => {
  it('hold the true slope about 95 times in 100, by least squares and by Theil and Sen', () => {
    const random = randomFrom(20261125)
    const at = Array.from({ length: 20 }, (_, day) => day)
    const rounds = 2000
    let byLeastSquares = 0
    let byMedians = 0
    for (let round = 0; round < rounds; round++) {
      const values = at.map((day) => 3 + 0.2 * day + random.gaussian())
      const [low, high] = lineIntervals(line(at, values), 0.95)?.slope ?? [1, 0]
      if (low <= 0.2 && 0.2 <= high) byLeastSquares++
      const [least, most] = theilSen(at, values, 0.95).slopeInterval ?? [1, 0]
      if (least <= 0.2 && 0.2 <= most) byMedians++
    }
    // Standard deviation of a share of 0.95 in 2000 rounds: 0.0049.
    expect(Math.abs(byLeastSquares / rounds - 0.95)).toBeLessThan(0.015)
    expect(Math.abs(byMedians / rounds - 0.95)).toBeLessThan(0.015)
  })

  it('are none for two points', () => {
    expect(lineIntervals(line([0, 1], [0, 1]), 0.95)).toBeNull()
  })
})
