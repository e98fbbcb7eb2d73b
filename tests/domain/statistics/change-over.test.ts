import { expect, test } from 'vitest'
import { changeOver } from '#domain/statistics/change-over.ts'
import { randomFrom } from './random-values.ts'

test('a ramp and a step are told by how far they went, and a constant changes nothing', () => {
  const ramp = Float64Array.from({ length: 60 }, (_, i) => 0.5 * i)
  expect(changeOver(ramp, 0)).toMatchObject({ change: 0.5 * 53, steps: 53, averaged: 7 })
  const step = Float64Array.from({ length: 60 }, (_, i) => (i < 20 ? 4 : -2))
  expect(changeOver(step, 0)?.change).toBe(-6)
  expect(
    changeOver(
      step.map((value) => value + 1000),
      0,
    )?.change,
  ).toBeCloseTo(-6, 9)
})

test('95 % of intervals of noise about a ramp hold it, independent or hanging together', () => {
  const random = randomFrom(31)
  for (const share of [0, 0.6]) {
    let held = 0
    for (let round = 0; round < 300; round++) {
      let left = random.gaussian()
      const values = Float64Array.from({ length: 60 }, (_, i) => {
        left = share * left + Math.sqrt(1 - share * share) * random.gaussian()
        return 0.2 * i + left
      })
      const [low, high] = changeOver(values, 0)?.interval ?? [0, 0]
      if (low <= 0.2 * 53 && 0.2 * 53 <= high) held++
    }
    expect(held / 300).toBeGreaterThan(0.91)
  }
})

test('gaps are left out, and fewer than eight values are refused', () => {
  const gappy = Float64Array.from({ length: 60 }, (_, i) => (i % 3 === 0 ? i : Number.NaN))
  expect(changeOver(gappy, 0)?.change).toBeCloseTo(51, 9)
  expect(changeOver(Float64Array.from([1, 2, 3, 4, 5, 6, 7]), 0)).toBeNull()
})

test('agreement better than the stated uncertainty is chance', () => {
  const still = new Float64Array(40).fill(3)
  expect(changeOver(still, 0.5)?.standardError).toBeGreaterThanOrEqual(0.5 * Math.sqrt(2 / 5) - 1e-12)
})
