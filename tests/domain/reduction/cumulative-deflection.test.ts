import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cumulativeDeflection, greatestDeflection } from '#domain/reduction/cumulative-deflection.ts'

const increments = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 1, maxLength: 20 })

describe('cumulativeDeflection', () => {
  test('a string turned over has its sums turned over', () => {
    fc.assert(
      fc.property(increments, (given) => {
        expect(cumulativeDeflection(given.toReversed(), 'head')).toEqual(
          cumulativeDeflection(given, 'toe').toReversed(),
        )
      }),
      { seed: 8 },
    )
  })

  test('from toe and from head differ by one constant, the movement of the whole string', () => {
    fc.assert(
      fc.property(increments, (given) => {
        const total = given.reduce((sum, value) => sum + value, 0)
        const toe = cumulativeDeflection(given, 'toe')
        const head = cumulativeDeflection(given, 'head')
        expect(toe[0]).toBe(total)
        expect(head.at(-1)).toBe(total)
        // The top of segment i is the bottom of segment i − 1, reckoned from the other end.
        given.slice(1).forEach((_, index) => {
          expect((head[index] ?? 0) + (toe[index + 1] ?? 0)).toBe(total)
        })
      }),
      { seed: 9 },
    )
  })

  test('is unknown from a missing segment on, and known up to it', () => {
    expect(cumulativeDeflection([1, null, 2, 3], 'toe')).toEqual([null, null, 5, 3])
    expect(cumulativeDeflection([1, null, 2, 3], 'head')).toEqual([1, null, null, null])
    expect(cumulativeDeflection([], 'toe')).toEqual([])
  })
})

describe('greatestDeflection', () => {
  test.each([
    [[1, 5, 3], 5],
    [[-7, 5, 3], -7],
    [[-5, 5], 5],
    [[0, 0], 0],
    [[null, 9], null],
    [[], null],
  ])('%j is %s', (given, expected) => {
    expect(greatestDeflection(given)).toBe(expected)
  })
})
