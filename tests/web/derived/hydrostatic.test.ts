import { expect, test } from 'vitest'
import { hydrostaticKpa, piezometricLevelMetres } from '../../../web/derived/hydrostatic.ts'

test('ten metres of water are 98.1 kPa; above the water there is no pressure', () => {
  expect(hydrostaticKpa(-8, 2)).toBeCloseTo(98.1, 9)
  expect(hydrostaticKpa(3, 2)).toBe(0)
})

test('level from pressure undoes pressure from level', () => {
  expect(piezometricLevelMetres(-14, hydrostaticKpa(-14, -1.6))).toBeCloseTo(-1.6, 12)
})
