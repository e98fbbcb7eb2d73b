import { describe, expect, test } from 'vitest'
import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'
import { cumulativeDeflection } from '#domain/reduction/cumulative-deflection.ts'
import { piezometricLevelMetres, pressureHeadMetres } from '#domain/reduction/hydrostatics.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import { meanOfMembers } from '#domain/reduction/rules/mean.ts'
import { steps } from '#domain/reduction/steps.ts'
import { chainUncertainty, noUncertainty } from '#domain/reduction/uncertainty.ts'
import { convert } from '#domain/units.ts'
import {
  chainValues,
  hydrostatics,
  inPlaceString,
  means,
  platinum,
  thermistor,
  unitFactors,
} from './reduction-values.ts'

const none: Companions = { temperatureDegC: null, barometerKpa: null }
const reduce = (raw: number, chain: readonly CalibrationStep[], companions = none): number =>
  reduceValue(raw, chain, companions).value ?? Number.NaN
const within = (value: number, expected: number, tolerance: number): void =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance)

test.each(chainValues)('$id: $what ($kind)', ({ raw, steps: chain, companions, expected, tolerance }) => {
  within(reduce(raw, chain, { ...none, ...companions }), expected, tolerance)
})

test('VW-02 (common practice): 2500 Hz has a period of 400 µs', () => {
  expect(steps['period-to-frequency'].invert(2500, {}, none)).toBe(400)
  expect(steps['frequency-squared'].apply(2500, {}, none)).toBe(6250)
})

test('VW-10: with the barometric term the suction is gone', () => {
  within(
    reduce(89.874563, [{ kind: 'barometric', parameters: { reference: 0, maximumAgeMinutes: 60 } }], {
      ...none,
      barometerKpa: 89.874563,
    }),
    0,
    1e-9,
  )
  within(pressureHeadMetres(-11.4504370838, 9.80665), -1.167619634, 5e-5)
})

test('one more kPa of air on an unvented sensor changes nothing (first principles)', () => {
  const chain: readonly CalibrationStep[] = [
    { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 60 } },
  ]
  const before = reduceValue(150, chain, { temperatureDegC: null, barometerKpa: 101.3 }).value
  expect(reduceValue(151, chain, { temperatureDegC: null, barometerKpa: 102.3 }).value).toBe(before)
})

describe(`thermistor (${thermistor.kind})`, () => {
  const curve = steps['steinhart-hart']
  test.each(thermistor.temperatures)('%s: %d Ω is %d °C', (_id, ohm, celsius) => {
    within(
      curve.apply(ohm, thermistor.parameters, none) ?? Number.NaN,
      celsius,
      thermistor.temperatureTolerance,
    )
  })
  test.each(thermistor.resistances)('%d °C is %d Ω, and back', (celsius, ohm) => {
    within(
      curve.invert(celsius, thermistor.parameters, none) ?? Number.NaN,
      ohm,
      thermistor.resistanceTolerance,
    )
    within(curve.apply(ohm, thermistor.parameters, none) ?? Number.NaN, celsius, 1e-4)
  })
  test('TH-12: the logarithm is the natural one', () => {
    const celsius = curve.apply(3000, thermistor.parameters, none) ?? Number.NaN
    within(celsius, 24.992, 0.001)
    expect(Math.abs(celsius - thermistor.withDecimalLogarithm)).toBeGreaterThan(149)
  })
  test.each(thermistor.leadErrors)('TH-16: 10 Ω of lead at %d °C is wrong by %d', (celsius, error) => {
    const ohm = curve.invert(celsius, thermistor.parameters, none) ?? Number.NaN
    within((curve.apply(ohm + 10, thermistor.parameters, none) ?? Number.NaN) - celsius, error, 1e-5)
  })
})

describe(`platinum thermometer (${platinum.kind})`, () => {
  const curve = steps['callendar-van-dusen']
  const r0 = { r0: 100 }
  test.each(platinum.resistances)('%s: %d °C is %d Ω, printed as %d', (_id, celsius, ohm, printed) => {
    const computed = curve.invert(celsius, r0, none) ?? Number.NaN
    within(computed, ohm, 1e-6)
    within(computed, printed, 0.005 + 1e-9)
    within(curve.apply(ohm, r0, none) ?? Number.NaN, celsius, 1e-9)
  })
  test.each(platinum.temperatures)('RTD-11, RTD-12: %d Ω is %d °C', (ohm, celsius) => {
    within(curve.apply(ohm, r0, none) ?? Number.NaN, celsius, 1e-9)
  })
  test.each(platinum.quadraticAlone)('RTD-13, RTD-14: below zero %d Ω is not %d °C', (ohm, wrong) => {
    expect(Math.abs((curve.apply(ohm, r0, none) ?? Number.NaN) - wrong)).toBeGreaterThan(0.2)
  })
  test('RTD-17: two-wire lead error', () => {
    const [celsius, lead, error] = platinum.leadError
    const ohm = curve.invert(celsius, r0, none) ?? Number.NaN
    within((curve.apply(ohm + lead, r0, none) ?? Number.NaN) - celsius, error, 1e-4)
  })
})

describe(`units (${unitFactors.kind})`, () => {
  test.each(unitFactors.factors)('%s: 1 %s in %s is %d', (_id, from, to, factor) => {
    const outcome = convert(1, from, to)
    within(outcome.ok ? outcome.value : Number.NaN, factor, 1e-9 * factor)
  })
})

describe(`hydrostatics (${hydrostatics.kind})`, () => {
  test.each(hydrostatics.heads)('%d kPa at %d kN/m³ is %d m', (kpa, unitWeight, metres) => {
    within(pressureHeadMetres(kpa, unitWeight), metres, 1e-6)
  })
  test.each(hydrostatics.levels)(
    'tip at %d m, %d kPa, %d kN/m³: level %d m',
    (tip, kpa, unitWeight, level) => {
      within(piezometricLevelMetres(tip, kpa, unitWeight), level, 1e-6)
    },
  )
  test('HY-04: water flows down although the pressure is higher at the lower tip', () => {
    const upper = piezometricLevelMetres(100, 150, 9.80665)
    const lower = piezometricLevelMetres(90, 230, 9.80665)
    within((upper - lower) / (100 - 90), 0.184227029618, 1e-6)
  })
  test('ATM-22: a fixed 101.325 kPa instead of the barometer is 0.288 m wrong', () => {
    const withBarometer = reduceValue(
      151.325,
      [{ kind: 'barometric', parameters: { reference: 0, maximumAgeMinutes: 60 } }],
      { temperatureDegC: null, barometerKpa: 98.5 },
    ).value
    const withFixed = reduce(151.325, [{ kind: 'zero', parameters: { value: 101.325 } }])
    within(
      pressureHeadMetres(withFixed, 9.80665) - pressureHeadMetres(withBarometer ?? Number.NaN, 9.80665),
      -0.288069830166,
      1e-6,
    )
  })
})

describe(`in-place inclinometer (${inPlaceString.kind})`, () => {
  const increments = inPlaceString.lengthsMetres.map((length, index) => {
    const offset = (tilt: number | undefined) =>
      reduce(tilt ?? Number.NaN, [{ kind: 'gauge-length-sine', parameters: { length } }])
    return offset(inPlaceString.tiltsNow[index]) - offset(inPlaceString.tiltsBefore[index])
  })
  test('IN-12: increments and sums from a fixed toe', () => {
    const sums = cumulativeDeflection(increments, 'toe')
    inPlaceString.increments.forEach((expected, index) => {
      within(increments[index] ?? Number.NaN, expected, 1e-6)
      within(sums[index] ?? Number.NaN, inPlaceString.cumulative[index] ?? Number.NaN, 1e-6)
    })
  })
  test('IN-13: everything above a silent segment is unknown', () => {
    const sums = cumulativeDeflection(
      increments.map((increment, index) => (index === 1 ? null : increment)),
      'toe',
    )
    inPlaceString.cumulativeWithoutSecond.forEach((expected, index) => {
      if (expected === null) expect(sums[index]).toBeNull()
      else within(sums[index] ?? Number.NaN, expected, 1e-6)
    })
  })
})

describe(`means and resolution (${means.kind})`, () => {
  const squaredOf = (hertz: number) => reduce(hertz, [{ kind: 'frequency-squared', parameters: {} }])
  const frequencyOf = (micros: number) => reduce(micros, [{ kind: 'period-to-frequency', parameters: {} }])
  test('VW-05: members are averaged after squaring', () => {
    within(meanOfMembers(means.frequencies.map(squaredOf)) ?? Number.NaN, means.meanOfSquared, 1e-6)
    within(squaredOf(meanOfMembers(means.frequencies) ?? Number.NaN), means.squaredOfMean, 1e-6)
  })
  test('VW-20: a load cell is the mean of its gauges, each against its own zero', () => {
    const forces = means.cellNow.map((now, index) =>
      reduce(now, [
        { kind: 'zero', parameters: { value: means.cellZeros[index] ?? Number.NaN } },
        { kind: 'linear', parameters: { factor: -1.75, offset: 0, unit: 'kN' } },
      ]),
    )
    within(meanOfMembers(forces) ?? Number.NaN, means.cellForce, 1e-9)
  })
  test('VW-21: the frequency of the mean period is not the mean frequency', () => {
    within(frequencyOf(meanOfMembers(means.periods) ?? Number.NaN), means.frequencyOfMeanPeriod, 1e-6)
    within(meanOfMembers(means.periods.map(frequencyOf)) ?? Number.NaN, means.meanFrequency, 1e-9)
  })
  test('VW-19: 0.1 Hz at 2900 Hz carried to squared frequency and to kPa', () => {
    const chain: readonly CalibrationStep[] = [
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'linear', parameters: { factor: -0.158, offset: 1406.2, unit: 'kPa' } },
    ]
    const sources = { ...noUncertainty, raw: means.resolutionHz }
    within(
      chainUncertainty(means.resolutionAtHz, chain.slice(0, 1), none, sources) ?? Number.NaN,
      means.resolutionSquared,
      1.001e-5,
    )
    within(
      chainUncertainty(means.resolutionAtHz, chain, none, sources) ?? Number.NaN,
      means.resolutionKpa,
      2e-6,
    )
  })
})
