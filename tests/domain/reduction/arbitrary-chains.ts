import fc from 'fast-check'
import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'

const between = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true }).map((value) => Number(value.toPrecision(7)))
const step = (kind: CalibrationStep['kind'], parameters: Record<string, fc.Arbitrary<number | string>>) =>
  fc.record(parameters).map((values): CalibrationStep => ({ kind, parameters: values }))
const unit = (name: string) => fc.constant(name)
const nonZero = (magnitude: number) =>
  fc.tuple(between(magnitude / 1000, magnitude), fc.boolean()).map(([size, minus]) => (minus ? -size : size))

const linear = (to: string) =>
  step('linear', { factor: nonZero(2), offset: between(-2000, 2000), unit: unit(to) })
const curve = (to: string) =>
  step('polynomial', {
    c0: between(-3000, 3000),
    c1: nonZero(0.5),
    c2: between(-1e-6, 1e-6),
    unit: unit(to),
  })
const thermal = step('thermal', { factor: between(-0.5, 0.5), reference: between(0, 30) })
const barometric = fc.oneof(
  step('barometric', { reference: between(90, 105), maximumAgeMinutes: unit2(120) }),
  step('barometric', {
    reference: between(90, 105),
    maximumAgeMinutes: unit2(120),
    efficiency: between(0, 1),
    riseMetres: between(-200, 200),
  }),
)
const strainTemperature = fc.oneof(
  step('strain-temperature', { wire: between(8, 16), reference: between(0, 30) }),
  step('strain-temperature', {
    wire: between(8, 16),
    structure: between(8, 24),
    reference: between(0, 30),
    maximumAgeMinutes: unit2(30),
  }),
)
const zero = step('zero', { value: between(-500, 500) })
const convertTo = (from: string, to: string) => step('unit', { from: unit(from), to: unit(to) })

function unit2(value: number) {
  return fc.constant(value)
}

const some = (arbitrary: fc.Arbitrary<CalibrationStep>) => fc.option(arbitrary, { nil: null })
const chain = (...parts: fc.Arbitrary<CalibrationStep | null>[]) =>
  fc.tuple(...parts).map((steps) => steps.filter((part) => part !== null))

const pressureTail = [
  some(thermal),
  some(barometric),
  some(zero),
  some(convertTo('kPa', 'm[H2O]')),
  some(zero),
] as const

const steinhart = step('steinhart-hart', {
  a: between(1.0e-3, 1.5e-3),
  b: between(2.0e-4, 3.0e-4),
  c: between(0, 2e-7),
})
const platinum = step('callendar-van-dusen', { r0: fc.constantFrom(100, 500, 1000) })

/** Chains whose units join, of every kind of step, as certificates of real sensors would have them. */
export const wellJoinedChains: fc.Arbitrary<readonly CalibrationStep[]> = fc.oneof(
  chain(
    fc.constant({ kind: 'period-to-frequency', parameters: {} } as const),
    fc.constant({ kind: 'frequency-squared', parameters: {} } as const),
    fc.oneof(linear('kPa'), curve('kPa')),
    ...pressureTail,
  ),
  chain(
    fc.constant({ kind: 'frequency-squared', parameters: {} } as const),
    curve('kN'),
    some(thermal),
    some(zero),
  ),
  chain(steinhart, some(convertTo('Cel', '[degF]')), some(zero)),
  chain(platinum, some(convertTo('Cel', 'K')), some(zero), some(linear('Cel'))),
  chain(
    step('current-span', { low: between(-100, 100), high: between(200, 700), unit: unit('kPa') }),
    ...pressureTail,
  ),
  chain(
    step('voltage-span', {
      lowVolts: between(-1, 1),
      highVolts: between(2, 10),
      low: between(-50, 0),
      high: between(10, 50),
      unit: unit('mm'),
    }),
    some(thermal),
    some(convertTo('mm', 'm')),
  ),
  chain(
    step('ratio-bridge', {
      zero: between(-0.05, 0.05),
      sensitivity: nonZero(2),
      capacity: between(10, 5000),
      unit: unit('kN'),
    }),
    some(thermal),
    some(convertTo('kN', 'N')),
  ),
  chain(linear('deg'), some(thermal), step('gauge-length-sine', { length: between(0.2, 3) }), some(zero)),
  chain(
    fc.constant({ kind: 'frequency-squared', parameters: {} } as const),
    step('wire-strain', {
      lengthMetres: between(0.03, 0.5),
      densityKgPerM3: between(7500, 8500),
      modulusGpa: between(100, 220),
    }),
    some(strainTemperature),
    some(zero),
  ),
  chain(step('beta', { r25: between(1000, 20_000), beta: between(3000, 4500) }), some(zero)),
  chain(
    step('shunt', { ohms: between(50, 500) }),
    step('current-span', { low: between(-100, 100), high: between(200, 700), unit: unit('kPa') }),
    ...pressureTail,
  ),
  chain(
    fc.oneof(
      step('quarter-bridge', {
        gaugeFactor: between(1.8, 2.2),
        sense: fc.constantFrom(1, -1),
        zero: between(-1, 1),
      }),
      step('quarter-bridge', { gaugeFactor: between(1.8, 2.2), sense: fc.constantFrom(1, -1) }),
      step('full-bridge', { gaugeFactor: nonZero(2.2), activeArms: between(1, 4) }),
    ),
    some(strainTemperature),
    some(zero),
  ),
  chain(
    step('potentiometer', { low: between(-50, 0), high: between(1, 500), unit: unit('mm') }),
    some(thermal),
    some(zero),
  ),
  chain(
    step('rain-counter', { mmPerTip: between(0.1, 1), rollsOverAt: fc.constantFrom(0, 1024, 65_536) }),
    some(convertTo('mm', 'm')),
  ),
  chain(
    linear('mm/m'),
    some(thermal),
    fc.constant({ kind: 'sine-to-tilt', parameters: {} } as const),
    some(convertTo('deg', "''")),
    some(zero),
  ),
  chain(linear('deg'), fc.constant({ kind: 'tilt-to-sine', parameters: {} } as const), some(zero)),
  // Seven curves in a row: the SQL must stay short by naming what it repeats.
  chain(
    ...Array.from({ length: 7 }, () =>
      step('polynomial', { c0: between(-1, 1), c1: nonZero(1), c2: between(-1e-3, 1e-3), unit: unit('mm') }),
    ),
  ),
)

/** Readings a logger might write, and those it should not: nought, negatives, overflow codes, not numbers. */
export const anyRaw: fc.Arbitrary<number | null> = fc.oneof(
  { weight: 8, arbitrary: between(0.01, 20) },
  { weight: 8, arbitrary: between(15, 4000) },
  { weight: 4, arbitrary: between(1000, 200_000) },
  { weight: 2, arbitrary: between(-4000, 0) },
  fc.constantFrom(
    0,
    -0,
    7999,
    -99999,
    1e-300,
    3.4e38,
    -3.4e38,
    1e200,
    1.7e308,
    Infinity,
    -Infinity,
    Number.NaN,
    null,
  ),
)

export const anyCompanions: fc.Arbitrary<Companions> = fc.record({
  temperatureDegC: fc.option(between(-20, 60), { nil: null }),
  barometerKpa: fc.option(between(88, 108), { nil: null }),
})
