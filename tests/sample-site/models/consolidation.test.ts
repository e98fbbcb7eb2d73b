import { describe, expect, it } from 'vitest'
import { consolidationMillimetres, degreeOfConsolidation } from '../../../sample-site/models/consolidation.ts'
import { dayMs, programme } from '../../../sample-site/models/programme.ts'

const daysForTimeFactor = (factor: number) => (factor * 3.5 ** 2 * 365) / 8

describe('degreeOfConsolidation', () => {
  // Published: time factors of Terzaghi's solution for even pressure, as in the textbooks (Terzaghi and Peck, from memory).
  it.each([
    [0.197, 0.5],
    [0.403, 0.7],
    [0.848, 0.9],
  ])('time factor %d gives %d', (factor, degree) => {
    expect(degreeOfConsolidation(daysForTimeFactor(factor))).toBeCloseTo(degree, 2)
  })
  it.each([
    [30, 0.26],
    [90, 0.45],
    [180, 0.63],
  ])('%d days give %d', (days, degree) => expect(degreeOfConsolidation(days)).toBeCloseTo(degree, 1))
})

describe('consolidationMillimetres', () => {
  const at = programme.pumpingFrom + 180 * dayMs
  it('comes to 3 to 4 mm near the wall and 2 mm at the terrace in 180 days', () => {
    expect(consolidationMillimetres(500_060, 309_997, 4.6, at)).toBeGreaterThan(3)
    expect(consolidationMillimetres(500_060, 309_997, 4.6, at)).toBeLessThan(4.2)
    expect(consolidationMillimetres(500_016, 309_956, 4.6, at)).toBeCloseTo(2, 0)
  })
  it('is nothing below the clay', () => {
    expect(consolidationMillimetres(500_060, 309_997, -6.9, at)).toBe(0)
  })
})
