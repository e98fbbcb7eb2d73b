import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { judge } from '#domain/levels/judge.ts'
import type { JudgedLevel } from '#domain/levels/levels-in-force.ts'

const above = (...values: number[]): JudgedLevel[] =>
  values.map((value, index) => ({ level: index + 1, direction: 'above', value }))
const below = (...values: number[]): JudgedLevel[] =>
  values.map((value, index) => ({ level: index + 1, direction: 'below', value }))
const either = (...values: number[]): JudgedLevel[] =>
  values.map((value, index) => ({ level: index + 1, direction: 'either', value }))

describe('judge', () => {
  test('constructed series against levels 10 and 20, each value as it stands (no persistence, no hysteresis)', () => {
    // Constructed; the definition is ours: reached means at or beyond.
    const values = [
      8, 11, 9.5, 11, 11, 11, 12, 21, 12, 21, 22, 23, 19, 18.5, 17.9, 17.5, 17, 9.2, 8.8, 8.5, 8, 7.5,
    ]
    const expected = [0, 1, 0, 1, 1, 1, 1, 2, 1, 2, 2, 2, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0]
    expect(values.map((value) => judge(value, above(10, 20)).level)).toEqual(expected)
  })

  test.each([
    ['above, on the level', 22, above(22, 28), 1, 1],
    ['above, between', 25, above(22, 28), 1, 25 / 22],
    ['above, on the second', 28, above(22, 28), 2, 28 / 22],
    ['above, on the far side of nought', -30, above(22, 28), 0, 0],
    ['below, negative level', -5, below(-10), 0, 0.5],
    ['below, reached', -10, below(-10), 1, 1],
    ['below, on the far side', 5, below(-10), 0, 0],
    ['either, heave', -8, either(8, 12), 1, 1],
    ['either, settlement', 12, either(8, 12), 2, 1.5],
    ['either, level written negative', 4, either(-8), 0, 0.5],
  ] as const)('%s', (_what, value, levels, level, share) => {
    const judged = judge(value, levels)
    expect(judged.level).toBe(level)
    expect(judged.shareOfFirstLevel).toBeCloseTo(share, 12)
  })

  test('where no share of the way can be stated it is null, and the level is judged all the same', () => {
    expect(judge(0, above(0))).toEqual({ level: 1, shareOfFirstLevel: null })
    expect(judge(-1, above(0))).toEqual({ level: 0, shareOfFirstLevel: null })
    expect(judge(150, below(100))).toEqual({ level: 0, shareOfFirstLevel: null })
    expect(judge(90, below(100))).toEqual({ level: 1, shareOfFirstLevel: null })
    expect(judge(-6, above(-4))).toEqual({ level: 0, shareOfFirstLevel: null })
    expect(judge(0, either(0))).toEqual({ level: 1, shareOfFirstLevel: null })
  })

  test('a stated reference makes the way to such a level measurable', () => {
    expect(judge(140, below(100), 150)).toEqual({ level: 0, shareOfFirstLevel: 0.2 })
    expect(judge(160, below(100), 150)).toEqual({ level: 0, shareOfFirstLevel: 0 })
    expect(judge(-2, above(-4), -6).shareOfFirstLevel).toBe(2)
  })

  test('heave and settlement levels side by side: the nearer one counts', () => {
    const both: JudgedLevel[] = [...above(8, 12), ...below(-4)]
    expect(judge(-3, both)).toEqual({ level: 0, shareOfFirstLevel: 0.75 })
    expect(judge(6, both)).toEqual({ level: 0, shareOfFirstLevel: 0.75 })
    expect(judge(-5, both)).toEqual({ level: 1, shareOfFirstLevel: 1.25 })
  })

  test('the first level is the lowest numbered, in whatever order they are given', () => {
    expect(judge(14, above(22, 28).toReversed())).toEqual(judge(14, above(22, 28)))
    expect(judge(14, [{ level: 3, direction: 'above', value: 28 }]).shareOfFirstLevel).toBe(0.5)
  })

  test.each([null, Number.NaN, Infinity])('%s is never within', (value) => {
    expect(judge(value, above(10))).toEqual({ level: null, shareOfFirstLevel: null })
  })

  test('without levels nothing is judged', () => {
    expect(judge(1000, [])).toEqual({ level: null, shareOfFirstLevel: null })
  })

  test('share reaches 1 exactly when the first level is reached, and a worse value never judges lower', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: -200, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (first, value, worse) => {
          const levels = above(first, first * 1.5)
          const now = judge(value, levels)
          expect((now.shareOfFirstLevel ?? Number.NaN) >= 1).toBe((now.level ?? 0) >= 1)
          expect(judge(value + worse, levels).level).toBeGreaterThanOrEqual(now.level ?? Number.NaN)
          // Turned over, `below` judges as `above` does.
          expect(judge(-value, below(-first, -first * 1.5))).toEqual(now)
        },
      ),
      { seed: 11 },
    )
  })
})
