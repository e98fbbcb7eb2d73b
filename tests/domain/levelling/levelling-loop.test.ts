import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  adjustedLevels,
  isClosed,
  misclosureMetres,
  reducedLevels,
  type Setup,
} from '#domain/levelling/levelling-loop.ts'

const sight = fc.double({ min: 0.2, max: 4, noNaN: true })
const setup: fc.Arbitrary<Setup> = fc.record({
  backsightMetres: sight,
  foresightMetres: sight,
  distanceMetres: fc.double({ min: 5, max: 120, noNaN: true }),
})
const loop = fc.array(setup, { minLength: 1, maxLength: 20 })

describe('levelling loop', () => {
  test('closes on its last level when it is adjusted, whichever way the misclosure is shared', () => {
    fc.assert(
      fc.property(loop, fc.constantFrom('setups' as const, 'distance' as const), (setups, by) => {
        const adjusted = adjustedLevels(50, setups, by, 50.2)
        expect(adjusted.ok && adjusted.value.at(-1)).toBeCloseTo(50.2, 9)
      }),
      { seed: 51 },
    )
  })

  test('sum of backsights less sum of foresights is the misclosure of a loop', () => {
    fc.assert(
      fc.property(loop, (setups) => {
        const sum = (of: 'backsightMetres' | 'foresightMetres') =>
          setups.reduce((total, one) => total + one[of], 0)
        expect(misclosureMetres(7, setups)).toBeCloseTo(sum('backsightMetres') - sum('foresightMetres'), 9)
      }),
      { seed: 52 },
    )
  })

  test('by distance a long leg takes more of it than a short one', () => {
    const leg = (distanceMetres: number | null, foresightMetres: number): Setup => ({
      backsightMetres: 1,
      foresightMetres,
      distanceMetres,
    })
    const legs = [leg(30, 1), leg(90, 0.996)]
    expect(adjustedLevels(10, legs, 'distance')).toEqual({
      ok: true,
      value: [expect.closeTo(9.999, 9), expect.closeTo(10, 9)],
    })
    expect(adjustedLevels(10, [...legs, leg(null, 1)], 'distance').ok).toBe(false)
  })

  test('a misclosure is held against k times the root of the length, either way', () => {
    expect([isClosed(-12, 12, 1), isClosed(12.001, 12, 1)]).toEqual([true, false])
    expect(reducedLevels(3, [])).toEqual([])
    expect(misclosureMetres(3, [])).toBe(0)
  })
})
