import fc from 'fast-check'
import { expect, test } from 'vitest'
import { wilsonInterval } from '#domain/statistics/wilson-interval.ts'

test('a lower end of one half needs 9/10, 15/20, 21/30, 32/50 or 60/100', () => {
  for (const [received, sent] of [
    [9, 10],
    [15, 20],
    [21, 30],
    [32, 50],
    [60, 100],
  ] as const) {
    expect(wilsonInterval(received, sent).low).toBeGreaterThanOrEqual(0.5)
    expect(wilsonInterval(received - 1, sent).low).toBeLessThan(0.5)
  }
})

test('holds the share, mirrors when sent and lost change places, narrows with packets, widens with confidence', () => {
  const counts = fc
    .integer({ min: 1, max: 500 })
    .chain((sent) => fc.tuple(fc.integer({ min: 0, max: sent }), fc.constant(sent)))
  fc.assert(
    fc.property(counts, ([received, sent]) => {
      const { low, high } = wilsonInterval(received, sent)
      const width = (interval: { low: number; high: number }) => interval.high - interval.low
      expect(low).toBeGreaterThanOrEqual(0)
      expect(high).toBeLessThanOrEqual(1)
      expect(low).toBeLessThanOrEqual(received / sent)
      expect(high).toBeGreaterThanOrEqual(received / sent)
      const mirrored = wilsonInterval(sent - received, sent)
      expect(mirrored.low).toBeCloseTo(1 - high, 12)
      expect(width(wilsonInterval(received * 4, sent * 4))).toBeLessThan(width({ low, high }))
      expect(width(wilsonInterval(received, sent, 0.99))).toBeGreaterThan(width({ low, high }))
    }),
    { seed: 11 },
  )
  expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 })
})
