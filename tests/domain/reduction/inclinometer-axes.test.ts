import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { toAxes, toEastNorth } from '#domain/reduction/inclinometer-axes.ts'
import { amount, near } from './made-measures.ts'

describe('inclinometer axes', () => {
  test('turned to east and north and back are what they were', () => {
    fc.assert(
      fc.property(
        amount,
        amount,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.constantFrom('clockwise' as const, 'counter-clockwise' as const),
        (a, b, bearingDegrees, positiveB) => {
          const axes = { bearingDegrees, positiveB }
          const back = toAxes(toEastNorth(a, b, axes), axes)
          near(back.a, a, 100)
          near(back.b, b, 100)
        },
      ),
      { seed: 32 },
    )
  })

  test('along the grid nothing of one axis is left in the other', () => {
    expect(toEastNorth(3, 4, { bearingDegrees: 180, positiveB: 'clockwise' })).toEqual({
      east: -4,
      north: -3,
    })
    expect(toEastNorth(3, 4, { bearingDegrees: 0, positiveB: 'counter-clockwise' })).toEqual({
      east: -4,
      north: 3,
    })
  })
})
