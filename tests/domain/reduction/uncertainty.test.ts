import { describe, expect, test } from 'vitest'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import {
  carriedUncertainty,
  chainUncertainty,
  combine,
  noUncertainty,
  resolutionUncertainty,
} from '#domain/reduction/uncertainty.ts'

const chain: readonly CalibrationStep[] = [
  { kind: 'linear', parameters: { factor: -2, offset: 0, unit: 'kPa' } },
  { kind: 'thermal', parameters: { factor: 0.5, reference: 10 } },
  { kind: 'barometric', parameters: { reference: 100, maximumAgeMinutes: 60 } },
  { kind: 'unit', parameters: { from: 'kPa', to: 'Pa' } },
]
const companions = { temperatureDegC: 12, barometerKpa: 101 }

describe('chainUncertainty', () => {
  test('combines reading, companions and calibration by the slopes of the chain', () => {
    const sources = { raw: 1, calibration: 0, temperatureDegC: 4, barometerKpa: 3 }
    // In kPa: reading 2 × 1, temperature 0.5 × 4, air pressure 3; times 1000 in Pa.
    expect(chainUncertainty(50, chain, companions, sources)).toBeCloseTo(1000 * Math.hypot(2, 2, 3), 9)
  })

  test('adds the calibration in the unit of the value', () => {
    const sources = { ...noUncertainty, raw: 1.5, calibration: 4000 }
    expect(chainUncertainty(50, chain, companions, sources)).toBeCloseTo(Math.hypot(3000, 4000), 9)
  })

  test('is that of the calibration where nothing else is known, and unknown where nothing is', () => {
    expect(chainUncertainty(50, chain, companions, { ...noUncertainty, calibration: 7 })).toBe(7)
    expect(chainUncertainty(50, chain, companions, noUncertainty)).toBeNull()
    expect(chainUncertainty(50, chain, companions, { ...noUncertainty, zero: 24 })).toBe(24)
    expect(chainUncertainty(50, chain, companions, { ...noUncertainty, calibration: 7, zero: 24 })).toBe(25)
  })

  test('of no value is none; a skipped term brings none', () => {
    const sources = { raw: 1, calibration: 1, temperatureDegC: 100, barometerKpa: 0 }
    expect(chainUncertainty(50, chain, { ...companions, barometerKpa: null }, sources)).toBeNull()
    expect(
      chainUncertainty(50, chain, { ...companions, temperatureDegC: null }, { ...sources, calibration: 0 }),
    ).toBe(2000)
  })

  test('one temperature at two steps adds with its signs before squaring', () => {
    const opposed: readonly CalibrationStep[] = [
      { kind: 'thermal', parameters: { factor: 0.5, reference: 0 } },
      { kind: 'thermal', parameters: { factor: -0.5, reference: 0 } },
    ]
    const sources = { raw: 0, calibration: 0, temperatureDegC: 4, barometerKpa: 0 }
    expect(chainUncertainty(50, opposed, companions, sources)).toBe(0)
  })

  test('agrees with the scatter of many readings, to first order', () => {
    const curve: readonly CalibrationStep[] = [
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'polynomial', parameters: { c0: 0, c1: -0.16, c2: 1e-7, unit: 'kPa' } },
    ]
    const u = chainUncertainty(2900, curve, companions, { ...noUncertainty, raw: 0.1 }) ?? Number.NaN
    // By hand: du = 2 · 2900 · 0.1 / 1000 = 0.58; slope 2 · 1e-7 · 8410 − 0.16 = −0.158318.
    expect(u).toBeCloseTo(0.58 * 0.158318, 9)
  })
})

test('carriedUncertainty follows the chain step by step, without the calibration', () => {
  const sources = { raw: 1, calibration: 99, temperatureDegC: 0, barometerKpa: 0 }
  expect(carriedUncertainty(50, chain, companions, sources)).toEqual([2, 2, 2, 2000])
})

test('a resolution is a rectangle: 0.1 wide is 0.029', () => {
  expect(resolutionUncertainty(0.1)).toBeCloseTo(0.0288675, 7)
  expect(combine(3, 4)).toBe(5)
})
