import { expect, test } from 'vitest'
import { lagBetween } from '#domain/statistics/lag-between.ts'
import { randomFrom } from './random-values.ts'

const noise = (seed: number, count = 300) => {
  const { gaussian } = randomFrom(seed)
  return Float64Array.from({ length: count }, gaussian)
}

test('a copy that comes later, and one that comes earlier, are found to the step', () => {
  const leader = noise(7)
  const after = leader.map((_, i) => 2 * (leader[i - 5] ?? Number.NaN) + 9)
  expect(lagBetween(after, leader, 12)).toMatchObject({ lag: 5, lagInterval: [5, 5], open: false })
  expect(lagBetween(leader, after, 12)).toMatchObject({ lag: -5, lagInterval: [-5, -5] })
})

test('the planted lag lies in its interval in 95 of 100 noisy smooth copies', () => {
  let held = 0
  for (let seed = 0; seed < 100; seed++) {
    const raw = noise(100 + seed, 420)
    const smooth = raw.map((_, i) => [0, 1, 2, 3].reduce((sum, back) => sum + (raw[i - back] ?? 0), 0))
    const more = noise(900 + seed, 420)
    const late = smooth.map((_, i) => (smooth[i - 6] ?? Number.NaN) + 1.5 * (more[i] as number))
    const found = lagBetween(late, smooth, 20)
    if (found && found.lagInterval[0] <= 6 && 6 <= found.lagInterval[1]) held++
  }
  expect(held).toBeGreaterThanOrEqual(95)
})

test('of unrelated series no lag is told in most of 60, and none of seven pairs', () => {
  let told = 0
  for (let seed = 0; seed < 60; seed++) if (lagBetween(noise(seed), noise(seed + 500), 0)) told++
  expect(told).toBeLessThan(8)
  expect(lagBetween(noise(1, 7), noise(2, 7), 2)).toBeNull()
})
