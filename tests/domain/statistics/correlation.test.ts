import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { correlationOf, rankCorrelation } from '#domain/statistics/correlation.ts'
import { independentPairs } from '#domain/statistics/independent-pairs.ts'
import { randomFrom } from './random-values.ts'

/** Each value a share of the one before it and the rest by chance. */
function autoregressive(random: ReturnType<typeof randomFrom>, count: number, share: number) {
  let value = random.gaussian()
  return Float64Array.from({ length: count }, () => {
    value = share * value + Math.sqrt(1 - share * share) * random.gaussian()
    return value
  })
}

describe('pairs that count', () => {
  test('are (1 − ab) / (1 + ab) of all where both hang together from step to step (Bartlett 1935)', () => {
    const random = randomFrom(21)
    const share = Array.from({ length: 40 }, () => {
      const [one, other] = [autoregressive(random, 2000, 0.8), autoregressive(random, 2000, 0.6)]
      return 1 / independentPairs(one, other)
    }).reduce((sum, one) => sum + one / 40, 0)
    expect(1 / share / 2000).toBeGreaterThan(0.29)
    expect(1 / share / 2000).toBeLessThan(0.42)
  })

  test('keep the promise of the interval: 95 % of unrelated series that hang together contain no correlation', () => {
    const random = randomFrom(22)
    let [kept, naive] = [0, 0]
    const rounds = 400
    for (let round = 0; round < rounds; round++) {
      const [one, other] = [autoregressive(random, 200, 0.85), autoregressive(random, 200, 0.85)]
      const found = correlationOf(one, other)
      if (found && found.interval[0] <= 0 && found.interval[1] >= 0) kept++
      if (found && Math.abs(Math.atanh(found.correlation)) * Math.sqrt(197) <= 1.96) naive++
    }
    expect(kept / rounds).toBeGreaterThan(0.9)
    expect(kept / rounds).toBeLessThan(0.99)
    // As if every value were independent the promise is broken.
    expect(naive / rounds).toBeLessThan(0.7)
  })
})

describe('a correlation', () => {
  const list = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 12, maxLength: 40 })
  test('does not change with a constant or a scale, and turns its sign with either', () => {
    fc.assert(
      fc.property(list, fc.double({ min: -1e3, max: 1e3, noNaN: true }), (values, constant) => {
        const one = Float64Array.from(values, (value) => Math.round(value * 100) / 100)
        const other = one.map((value, i) => Math.sin(i) * 10 + value / 2)
        const [plain, moved, turned] = [
          correlationOf(one, other),
          correlationOf(
            one.map((value) => 3 * value + constant),
            other,
          ),
          correlationOf(
            one.map((value) => -value),
            other,
          ),
        ]
        if (plain === null) return
        expect(moved?.correlation).toBeCloseTo(plain.correlation, 6)
        expect(moved?.interval[0]).toBeCloseTo(plain.interval[0], 5)
        expect(turned?.correlation).toBeCloseTo(-plain.correlation, 12)
      }),
      { seed: 5, numRuns: 60 },
    )
  })

  test('of ranks sees any rise as full, where that of values does not', () => {
    const one = Float64Array.from({ length: 20 }, (_, i) => i)
    const other = one.map((value) => Math.exp(value))
    expect(rankCorrelation(one, other)?.correlation).toBeCloseTo(1, 12)
    expect(correlationOf(one, other)?.correlation).toBeLessThan(0.7)
  })

  test('is refused of seven pairs, and of a series that does not vary', () => {
    const rising = Float64Array.from({ length: 7 }, (_, i) => i)
    expect(correlationOf(rising, rising)).toBeNull()
    const long = Float64Array.from({ length: 30 }, (_, i) => i)
    expect(correlationOf(long, new Float64Array(30).fill(0.1 + 0.2))).toBeNull()
  })
})
