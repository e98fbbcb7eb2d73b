import { describe, expect, test } from 'vitest'
import { seriesAccount } from '#domain/ground/series-account.ts'
import { lookAtSeries } from '#domain/statistics/look-at-series.ts'

const dayMs = 86_400_000
const noise = (at: number) => 0.2 * Math.sin(at * 12.9898) * Math.cos(at * 78.233)
const days = Array.from({ length: 40 }, (_, at) => at * dayMs)
const look = (value: (at: number) => number, options = { leastSpread: 0.01 }) => {
  const found = lookAtSeries(
    days,
    days.map((_, at) => value(at)),
    options,
  )
  if (!found.ok) throw new Error('refused')
  return found.value
}

describe('a look at a series', () => {
  test('a steady rise is a trend of its own slope', () => {
    const found = look((at) => 0.5 * at + noise(at))
    expect(found.robust.slope).toBeCloseTo(0.5, 1)
    expect(found.trend.pTwoSided).toBeLessThan(1e-6)
    expect(seriesAccount(found, 'mm', []).remarks[0]).toContain('A trend is told')
  })

  test('a step is placed where it is; a level series has none, and no trend', () => {
    const stepped = look((at) => (at < 17 ? 2 : 7) + noise(at))
    expect(stepped.change?.before).toBe(17)
    expect(stepped.rankStep?.before).toBe(17)
    const level = look(noise)
    expect(level.change).toBeNull()
    expect(seriesAccount(level, 'mm', []).remarks[0]).toContain('does not say that nothing moves')
  })

  test('a wild value stands off and moves the robust slope little; nothing is taken away', () => {
    const found = look((at) => (at === 20 ? 30 : 0.1 * at + noise(at)))
    expect(found.outliers.map(({ at }) => at)).toContain(20)
    expect(found.robust.slope).toBeCloseTo(0.1, 1)
    expect(found.values[20]).toBe(30)
  })

  test('a mean over time does not run across a long gap', () => {
    const at = [...days.slice(0, 10), ...days.slice(0, 10).map((one) => one + 200 * dayMs)]
    const found = lookAtSeries(
      at,
      at.map((one) => (one < 100 * dayMs ? 0 : 10)),
      { leastSpread: 0.01 },
    )
    expect(found.ok && found.value.timeMean).toBeCloseTo(5, 9)
  })

  test('seven values are refused', () => {
    expect(lookAtSeries(days.slice(0, 7), [1, 2, 3, 4, 5, 6, 7], { leastSpread: 0 }).ok).toBe(false)
  })

  test('equal values give no number that is none', () => {
    const found = look(() => 3)
    expect(found.robust.slope).toBe(0)
    expect(found.trend.pTwoSided).toBe(1)
    expect(seriesAccount(found, 'mm', []).found.every(({ value }) => Number.isFinite(value))).toBe(true)
  })
})
