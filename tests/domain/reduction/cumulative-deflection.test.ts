import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cumulativeDeflection, greatestDeflection } from '#domain/reduction/cumulative-deflection.ts'

const increments = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 1, maxLength: 20 })

describe('cumulativeDeflection', () => {
  test('a string turned over has its sums turned over, the other way round', () => {
    fc.assert(
      fc.property(increments, (given) => {
        const other = cumulativeDeflection(given, 'toe').toReversed()
        expect(cumulativeDeflection(given.toReversed(), 'head')).toEqual(other.map((sum) => 0 - (sum ?? 0)))
      }),
      { seed: 8 },
    )
  })

  test('from toe and from head differ at every joint by one constant, the movement of the whole string', () => {
    fc.assert(
      fc.property(increments, (given) => {
        const total = given.reduce((sum, value) => sum + value, 0)
        // Joints from the top down: the top of segment 0, the tops of those below it, the base of the last.
        const fromToe = [...cumulativeDeflection(given, 'toe'), 0]
        const fromHead = [0, ...cumulativeDeflection(given, 'head')]
        fromToe.forEach((value, joint) => {
          expect((value ?? 0) - (fromHead[joint] ?? 0)).toBe(total)
        })
      }),
      { seed: 9 },
    )
  })

  test('is unknown from a missing segment on, and known up to it', () => {
    expect(cumulativeDeflection([1, null, 2, 3], 'toe')).toEqual([null, null, 5, 3])
    expect(cumulativeDeflection([1, null, 2, 3], 'head')).toEqual([-1, null, null, null])
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
