import { expect, test } from 'vitest'
import { offInterval, standsOff } from '#domain/review/odd-reading.ts'
import { randomFrom } from '../statistics/random-values.ts'

// No published source: coverage is counted over seeds.
test.each([
  ['in the middle, readings independent', 30, 15, 0],
  ['in the middle, readings that hang together', 30, 15, 0.6],
  ['the newest, readings independent', 30, 29, 0],
  ['among few', 9, 8, 0],
])('how far a reading stands off is held by its interval: %s', (_, count, at, hanging) => {
  let held = 0
  const worlds = 1000
  for (let seed = 1; seed <= worlds; seed++) {
    const { gaussian } = randomFrom(seed)
    let noise = gaussian()
    const values = Array.from({ length: count }, (_, place) => {
      noise = hanging * noise + Math.sqrt(1 - hanging ** 2) * gaussian()
      return 10 + noise + (place === at ? 9 : 0)
    })
    const trace = { atEpochMs: values.map((_, hour) => hour * 3_600_000), values, repeatability: null }
    const off = standsOff(trace, at, 0)
    const [low, high] = off ? offInterval(off) : [0, 0]
    if (low <= 9 && 9 <= high) held++
  }
  expect(held / worlds).toBeGreaterThan(0.93)
  expect(held / worlds).toBeLessThan(0.985)
})
