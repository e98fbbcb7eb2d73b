import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { standardAir, standardPressureAbove, standardPressureSlope } from '#domain/reduction/atmosphere.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { chainUncertainty, noUncertainty } from '#domain/reduction/uncertainty.ts'
import {
  freshWaterDensity,
  kellWaterDensity,
  normalGravity,
  seaWaterDensity,
  waterDensity,
} from '#domain/reduction/water-density.ts'

test('nothing is known outside the range of the formulae', () => {
  expect(waterDensity(-1)).toBeNaN()
  expect(waterDensity(41)).toBeNaN()
  expect(seaWaterDensity(50, 10)).toBeNaN()
  expect(kellWaterDensity(151)).toBeNaN()
  expect(freshWaterDensity(-1)).toBeNaN()
  expect(freshWaterDensity(101)).toBeNaN()
  expect(standardAir(12_000).pressurePa).toBeNaN()
})

test('hot water follows on from cold within what the two formulae differ by', () => {
  expect(Math.abs(freshWaterDensity(40.0001) - freshWaterDensity(40))).toBeLessThan(0.005)
  expect(freshWaterDensity(40)).toBe(waterDensity(40))
})

test('gravity is that of the ellipsoid at the equator and grows towards both poles', () => {
  expect(normalGravity(0)).toBe(9.7803253359)
  expect(normalGravity(-45)).toBe(normalGravity(45))
})

describe('air carried up by the standard atmosphere', () => {
  const kpa = (metres: number) => standardAir(metres).pressurePa / 1000

  test('is that atmosphere itself, from any level to any other', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -500, max: 3000, noNaN: true }),
        fc.double({ min: -500, max: 2000, noNaN: true }),
        (from, rise) => {
          expect(standardPressureAbove(kpa(from), rise)).toBeCloseTo(kpa(from + rise), 9)
        },
      ),
      { seed: 7, numRuns: 200 },
    )
  })

  test('without a rise stays the same number, and a vacuum stays one', () => {
    expect(standardPressureAbove(99.1234, 0)).toBe(99.1234)
    expect(standardPressureAbove(0, 300)).toBe(0)
    expect(standardPressureAbove(-1, 300)).toBeNull()
  })

  test('its slope is that of the pressure', () => {
    const slope =
      ((standardPressureAbove(100.01, 250) ?? Number.NaN) -
        (standardPressureAbove(99.99, 250) ?? Number.NaN)) /
      0.02
    expect(standardPressureSlope(100, 250)).toBeCloseTo(slope, 8)
  })
})

describe('a barometric term', () => {
  const pressure = (raw: number, barometerKpa: number, more: Record<string, number> = {}) =>
    runChain(
      raw,
      [{ kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 60, ...more } }],
      { temperatureDegC: null, barometerKpa },
    ).value

  test('leaves nothing of one more kPa of air on an unvented sensor', () => {
    expect(pressure(151, 102.3)).toBe(pressure(150, 101.3))
  })

  test('takes out of a sealed tip only the share that it feels (GWT-17: 0.4 kPa of 1 kPa)', () => {
    expect(pressure(150.4, 102.3, { efficiency: 0.4 })).toBeCloseTo(150, 12)
    expect(pressure(150.4, 102.3)).toBeCloseTo(149.4, 12)
  })

  test("brings the barometer's uncertainty in by the share that is felt, at the level to which it is carried", () => {
    const uncertainty = (more: Record<string, number>) =>
      chainUncertainty(
        150,
        [{ kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 60, ...more } }],
        { temperatureDegC: null, barometerKpa: 102.3 },
        { ...noUncertainty, barometerKpa: 0.1 },
      )
    expect(uncertainty({})).toBeCloseTo(0.1, 12)
    expect(uncertainty({ efficiency: 0.4 })).toBeCloseTo(0.04, 12)
    expect(uncertainty({ riseMetres: 120 })).toBeCloseTo(0.1 * standardPressureSlope(102.3, 120), 12)
  })

  test('carries barometer and reference together, so that a rise alone moves nothing', () => {
    expect(pressure(150, 101.3, { riseMetres: 120 })).toBe(150)
    const change = 150 - (pressure(150, 103.3, { riseMetres: 120 }) ?? Number.NaN)
    expect(change).toBeGreaterThan(1.9)
    expect(change).toBeLessThan(2)
  })

  test('carries the air down to an absolute sensor below its barometer: 12 Pa a metre', () => {
    const value = runChain(
      151.325,
      [{ kind: 'barometric', parameters: { reference: 0, maximumAgeMinutes: 60, riseMetres: -100 } }],
      { temperatureDegC: null, barometerKpa: 101.325 },
    ).value
    expect(value).toBeCloseTo(50 - 100 * 0.01206, 2)
  })
})
