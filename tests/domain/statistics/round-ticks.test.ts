import fc from 'fast-check'
import { expect, test } from 'vitest'
import { roundTicks } from '#domain/statistics/round-ticks.ts'

test('plain cases', () => {
  expect(roundTicks(0, 10, 6)).toEqual([0, 2, 4, 6, 8, 10])
  expect(roundTicks(0, 10, 11)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10])
  expect(roundTicks(-0.31, 0.29, 7)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2])
  expect(roundTicks(0, 0.3, 4)).toEqual([0, 0.1, 0.2, 0.3])
  expect(roundTicks(1.2e6, 1.9e6, 5)).toEqual([1.2e6, 1.4e6, 1.6e6, 1.8e6])
})

test('nothing for an empty, reversed or endless span', () => {
  expect(roundTicks(5, 5, 10)).toEqual([])
  expect(roundTicks(6, 5, 10)).toEqual([])
  expect(roundTicks(0, Number.POSITIVE_INFINITY, 10)).toEqual([])
  expect(roundTicks(Number.NaN, 1, 10)).toEqual([])
})

test('within the span, evenly stepped, no more than asked and never fewer than a coarser step would leave', () => {
  const scale = fc.integer({ min: -6, max: 9 }).map((power) => 10 ** power)
  fc.assert(
    fc.property(
      fc.double({ min: -1000, max: 1000, noNaN: true }),
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      scale,
      fc.integer({ min: 1, max: 20 }),
      (low, span, scale, atMost) => {
        const from = low * scale
        const until = from + span * scale
        const ticks = roundTicks(from, until, atMost)
        expect(ticks.length).toBeLessThanOrEqual(atMost)
        if (atMost >= 6) expect(ticks.length).toBeGreaterThanOrEqual(Math.floor(atMost / 2.5) - 1)
        for (const tick of ticks) {
          expect(tick).toBeGreaterThanOrEqual(from - span * scale * 1e-6)
          expect(tick).toBeLessThanOrEqual(until + span * scale * 1e-6)
        }
        const steps = ticks.slice(1).map((tick, index) => tick - (ticks[index] as number))
        for (const step of steps)
          expect(step).toBeCloseTo(steps[0] as number, Math.max(0, 6 - Math.log10(scale)))
      },
    ),
    { seed: 14 },
  )
})
