import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  decimalsApart,
  extentOf,
  stepDecimals,
  tickStep,
  valueTicks,
  widened,
} from '../../../../web/views/marks/value-ticks.ts'

test.each([
  [0, 10, 5, [0, 2, 4, 6, 8, 10]],
  [-0.03, 0.115, 4, [0, 0.05, 0.1]],
  [2290, 2810, 5, [2400, 2600, 2800]],
] as const)('%d to %d', (low, high, count, ticks) => {
  expect(valueTicks({ low, high }, count)).toEqual(ticks)
})

test('ticks lie within, evenly, at every scale', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.integer({ min: -6, max: 6 }),
      fc.integer({ min: 2, max: 12 }),
      (low, power, count) => {
        const high = low + 10 ** power
        fc.pre(high - low > 1e-9 * Math.abs(low))
        const ticks = valueTicks({ low, high }, count)
        const step = tickStep({ low, high }, count)
        expect(ticks.length).toBeLessThanOrEqual(count * 2 + 2)
        for (const tick of ticks) {
          expect(tick).toBeGreaterThanOrEqual(low - step * 1e-6)
          expect(tick).toBeLessThanOrEqual(high + step * 1e-6)
        }
      },
    ),
    { seed: 4 },
  )
})

test('decimals tell ticks apart', () => {
  expect([stepDecimals(0.05), stepDecimals(2), stepDecimals(0.1), stepDecimals(0)]).toEqual([2, 0, 1, 0])
})

test.each([
  [[-6, -3.9999999, -2, 0], 0],
  [[0.5, 1, 1.5], 1],
  [[105.5, 106], 1],
  [[0.25, 0.5], 2],
  [[0.1 + 0.2, 0.4], 1],
  [[-3.9999], 0],
  [[0.05], 2],
  [[0], 0],
  [[], 0],
])('values %j are said with %i decimals', (values, decimals) => {
  expect(decimalsApart(values)).toBe(decimals)
})

test('absent values do not count; none at all is no extent', () => {
  expect(extentOf([Number.NaN, 2, -1])).toEqual({ low: -1, high: 2 })
  expect(extentOf([Number.NaN])).toBeNull()
  expect(widened({ low: 5, high: 5 }, 0.1, 2)).toEqual({ low: 4, high: 6 })
})
