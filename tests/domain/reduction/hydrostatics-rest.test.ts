import { expect, test } from 'vitest'
import { hydrostaticKpa, piezometricLevelMetres } from '#domain/reduction/hydrostatics.ts'

test('pressure at rest grows with the depth below the water and is nought above it', () => {
  expect(hydrostaticKpa(-8, 2)).toBeCloseTo(98.1, 9)
  expect(hydrostaticKpa(3, 2)).toBe(0)
  expect(hydrostaticKpa(-8, 2, 10.05)).toBeCloseTo(100.5, 9)
})

test('the piezometric level of pressure at rest is the water level, whatever the water weighs', () => {
  expect(piezometricLevelMetres(-14, hydrostaticKpa(-14, -1.6))).toBeCloseTo(-1.6, 12)
  expect(piezometricLevelMetres(-14, hydrostaticKpa(-14, -1.6, 10.05), 10.05)).toBeCloseTo(-1.6, 12)
})
