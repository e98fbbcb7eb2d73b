import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Companions, StepParameters } from '#domain/reduction/chain.ts'
import { quality } from '#domain/reduction/quality.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { stepParameters } from '#domain/reduction/step-parameters.ts'
import { steps } from '#domain/reduction/steps.ts'
import { type StepKind, stepKinds } from '#domain/site/vocabulary.ts'
import { handDifference } from './check-by-hand.ts'

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const either = (min: number, max: number) =>
  fc.tuple(double(min, max), fc.boolean()).map(([size, minus]) => (minus ? -size : size))

interface Case {
  readonly parameters: fc.Arbitrary<StepParameters>
  /** Where the formula is defined and can be undone. */
  readonly x: (parameters: StepParameters) => fc.Arbitrary<number>
}

const none = fc.constant<StepParameters>({})
const cases: Readonly<Record<StepKind, Case>> = {
  'period-to-frequency': { parameters: none, x: () => double(50, 5000) },
  'frequency-squared': { parameters: none, x: () => double(200, 8000) },
  linear: {
    parameters: fc.record({
      factor: either(0.001, 10),
      offset: double(-1000, 1000),
      unit: fc.constant('kPa'),
    }),
    x: () => double(-10_000, 10_000),
  },
  polynomial: {
    parameters: fc.record({
      c0: double(-2000, 2000),
      c1: either(0.05, 1),
      c2: double(-1e-6, 1e-6),
      unit: fc.constant('kPa'),
    }),
    // Up to the vertex at |c1 / 2 c2|, which is 25 000 at the least.
    x: () => double(-20_000, 20_000),
  },
  'steinhart-hart': {
    parameters: fc.record({ a: double(1e-3, 1.5e-3), b: double(2e-4, 3e-4), c: double(0, 2e-7) }),
    x: (parameters) =>
      double(-79, 199).map(
        (celsius) => steps['steinhart-hart'].invert(celsius, parameters, companions) ?? Number.NaN,
      ),
  },
  'callendar-van-dusen': {
    parameters: fc.record({ r0: fc.constantFrom(100, 500, 1000) }),
    x: ({ r0 }) => double(0.1853, 3.9048).map((ratio) => ratio * (r0 as number)),
  },
  'current-span': {
    parameters: fc.record({ low: double(-100, 100), high: double(200, 1000), unit: fc.constant('kPa') }),
    x: () => double(3.61, 20.99),
  },
  'voltage-span': {
    parameters: fc.record({
      lowVolts: double(-1, 1),
      highVolts: double(2, 10),
      low: double(-50, 0),
      high: double(1, 50),
      unit: fc.constant('mm'),
    }),
    x: () => double(-1, 10),
  },
  'ratio-bridge': {
    parameters: fc.record({
      zero: double(-0.1, 0.1),
      sensitivity: either(0.5, 3),
      capacity: double(10, 5000),
      unit: fc.constant('kN'),
    }),
    x: () => double(-3, 3),
  },
  thermal: {
    parameters: fc.record({ factor: double(-1, 1), reference: double(-10, 40) }),
    x: () => double(-1000, 1000),
  },
  barometric: {
    parameters: fc
      .record(
        {
          reference: double(90, 105),
          maximumAgeMinutes: fc.constant(60),
          efficiency: double(0, 1),
          riseMetres: double(-300, 300),
        },
        { requiredKeys: ['reference', 'maximumAgeMinutes'] },
      )
      .map((given): StepParameters => ({ ...given })),
    x: () => double(-100, 1000),
  },
  zero: { parameters: fc.record({ value: double(-1000, 1000) }), x: () => double(-1000, 1000) },
  'gauge-length-sine': { parameters: fc.record({ length: double(0.1, 5) }), x: () => double(-80, 80) },
  unit: {
    parameters: fc.constantFrom(
      { from: 'mm', to: 'm' },
      { from: 'mbar', to: 'kPa' },
      { from: 'degC', to: '[degF]' },
      { from: 'Cel', to: 'K' },
      { from: 'kPa', to: 'm[H2O]' },
    ),
    x: () => double(-1000, 1000),
  },
  beta: {
    parameters: fc.record({ r25: double(1000, 20_000), beta: double(3000, 4500) }),
    x: (parameters) =>
      double(-79, 199).map((celsius) => steps.beta.invert(celsius, parameters, companions) ?? Number.NaN),
  },
  'wire-strain': {
    parameters: fc
      .record(
        {
          lengthMetres: double(0.03, 0.5),
          densityKgPerM3: double(7500, 8500),
          modulusGpa: double(100, 220),
          diameterMillimetres: double(0.1, 0.5),
        },
        { requiredKeys: ['lengthMetres', 'densityKgPerM3', 'modulusGpa'] },
      )
      .map((given): StepParameters => ({ ...given })),
    x: () => double(200, 10_000),
  },
  'strain-temperature': {
    parameters: fc
      .record(
        { wire: double(8, 16), structure: double(8, 24), reference: double(-10, 40) },
        { requiredKeys: ['wire', 'reference'] },
      )
      .map((given): StepParameters => ({ ...given })),
    x: () => double(-3000, 3000),
  },
  'quarter-bridge': {
    parameters: fc
      .record(
        { gaugeFactor: double(1.8, 2.2), sense: fc.constantFrom(1, -1), zero: double(-1, 1) },
        { requiredKeys: ['gaugeFactor', 'sense'] },
      )
      .map((given): StepParameters => ({ ...given })),
    x: () => double(-20, 20),
  },
  'full-bridge': {
    parameters: fc
      .record(
        { gaugeFactor: either(1.8, 2.2), activeArms: double(1, 4), zero: double(-1, 1) },
        { requiredKeys: ['gaugeFactor'] },
      )
      .map((given): StepParameters => ({ ...given })),
    x: () => double(-20, 20),
  },
  potentiometer: {
    parameters: fc.record({ low: double(-50, 0), high: double(1, 500), unit: fc.constant('mm') }),
    x: () => double(-0.1, 1.1),
  },
  shunt: { parameters: fc.record({ ohms: double(50, 500) }), x: () => double(0, 6) },
  'rain-counter': {
    parameters: fc.record({ mmPerTip: double(0.1, 1), rollsOverAt: fc.constantFrom(0, 65_536) }),
    x: () => double(0.001, 500),
  },
  'sine-to-tilt': { parameters: none, x: () => double(-900, 900) },
  'tilt-to-sine': { parameters: none, x: () => double(-80, 80) },
}

const companions: Companions = { temperatureDegC: 7.25, barometerKpa: 99.5 }

describe.each(stepKinds)('%s', (kind) => {
  const step = steps[kind]
  const given = cases[kind].parameters.chain((parameters) =>
    cases[kind].x(parameters).map((x) => ({ parameters, x })),
  )

  test('invert undoes apply', () => {
    fc.assert(
      fc.property(given, ({ parameters, x }) => {
        const y = step.apply(x, parameters, companions)
        expect(y).not.toBeNull()
        const back = step.invert(y ?? Number.NaN, parameters, companions)
        expect(back).not.toBeNull()
        const slope = Math.abs(step.derivative(x, parameters, companions))
        // y keeps 16 digits; a flat curve, or numbers that shared an offset, give fewer of them back.
        const lost = (1e-14 * (Math.abs(y ?? 0) + largest(parameters))) / slope
        expect(Math.abs((back ?? Number.NaN) - x)).toBeLessThanOrEqual(1e-11 * Math.abs(x) + lost + 1e-300)
      }),
      { seed: 1, numRuns: 500 },
    )
  })

  test('derivative is the slope of apply', () => {
    fc.assert(
      fc.property(given, ({ parameters, x }) => {
        const h = Math.max(1e-5 * Math.abs(x), 1e-6)
        const above = step.apply(x + h, parameters, companions)
        const below = step.apply(x - h, parameters, companions)
        fc.pre(above !== null && below !== null)
        // The two branches for platinum meet at 0 °C with a slope each; a difference across it is neither's.
        fc.pre(kind !== 'callendar-van-dusen' || (above ?? 0) * (below ?? 0) > 0)
        const measured = ((above ?? 0) - (below ?? 0)) / (2 * h)
        const stated = step.derivative(x, parameters, companions)
        const rounding = (1e-14 * (Math.abs(above ?? 0) + largest(parameters))) / h
        expect(Math.abs(measured - stated)).toBeLessThanOrEqual(1e-6 * Math.abs(stated) + rounding)
      }),
      { seed: 2, numRuns: 300 },
    )
  })

  test('never gives NaN, whatever is read', () => {
    fc.assert(
      fc.property(cases[kind].parameters, fc.double(), (parameters, x) => {
        const y = step.apply(x, parameters, companions)
        if (Number.isFinite(x) && Math.abs(x) < 1e100) expect(Number.isNaN(y)).toBe(false)
      }),
      { seed: 3, numRuns: 500 },
    )
  })

  test('in a chain any finite reading becomes a finite value, or none with a reason', () => {
    fc.assert(
      fc.property(
        cases[kind].parameters,
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        (parameters, x) => {
          const { value, quality: bits } = runChain(x, [{ kind, parameters }], companions)
          if (value === null) expect(bits & (quality.notComputable | quality.sensorFault)).not.toBe(0)
          else expect(Number.isFinite(value)).toBe(true)
        },
      ),
      { seed: 5, numRuns: 500 },
    )
  })

  test('its sentence carries its numbers, and says why when there is no value', () => {
    const [sample] = fc.sample(given, { seed: 4, numRuns: 1 })
    if (sample === undefined) throw new Error('a sample was asked for')
    const units = { unitIn: step.unitIn(sample.parameters) ?? 'kPa', unitOut: '' }
    const full = { ...units, unitOut: step.unitOut(sample.parameters, units.unitIn) }
    const y = step.apply(sample.x, sample.parameters, companions)
    const sentence = step.sentence(sample.x, y, sample.parameters, companions, full)
    expect(sentence).toMatch(/^[A-Z].*\.$/)
    expect(sentence).toContain('=')
    expect(sentence).not.toMatch(/NaN|null|undefined|Infinity|\be[+-]\d/)
    const none = step.sentence(sample.x, null, sample.parameters, companions, full)
    expect(none).toMatch(/^[A-Z0-9−].*\.$/)
    expect(none).not.toContain('=')
  })

  test('has the formula of its parameters', () => {
    expect(step.kind).toBe(kind)
    expect(step.formula).toBe(stepParameters[kind].formula)
  })
})

// The platinum equation is solved, not evaluated: that its answer solves it is what "invert undoes apply" says.
test.each(stepKinds.filter((kind) => kind !== 'callendar-van-dusen'))(
  'the sentence of %s checks by hand',
  (kind) => {
    const step = steps[kind]
    const given = cases[kind].parameters.chain((parameters) =>
      cases[kind].x(parameters).map((x) => ({ parameters, x })),
    )
    fc.assert(
      fc.property(given, ({ parameters, x }) => {
        const unitIn = step.unitIn(parameters) ?? 'kPa'
        const units = { unitIn, unitOut: step.unitOut(parameters, unitIn) }
        const y = step.apply(x, parameters, companions)
        const sentence = step.sentence(x, y, parameters, companions, units)
        const scale = Math.abs(x * step.derivative(x, parameters, companions)) + largest(parameters)
        expect(handDifference(sentence), sentence).toBeLessThanOrEqual(1e-8 * scale)
      }),
      { seed: 6, numRuns: 200 },
    )
  },
)

test('a companion derivative is the slope towards that companion', () => {
  const parameters = { factor: -0.045, wire: 12.2, reference: 12, maximumAgeMinutes: 60 }
  for (const kind of ['thermal', 'barometric', 'strain-temperature'] as const) {
    const { apply, companionDerivative, needs } = steps[kind]
    if (needs === null) throw new Error(`${kind} needs a companion`)
    const higher = { ...companions, [needs]: (companions[needs] ?? 0) + 1 }
    const change = (apply(500, parameters, higher) ?? 0) - (apply(500, parameters, companions) ?? 0)
    expect(companionDerivative?.(parameters, companions)).toBeCloseTo(change, 10)
  }
})

describe('what has no value', () => {
  test.each([
    ['period-to-frequency', 0],
    ['period-to-frequency', -500],
    ['frequency-squared', 0],
    ['steinhart-hart', 0],
    ['steinhart-hart', -3000],
    ['callendar-van-dusen', 0],
    ['callendar-van-dusen', 18],
    ['callendar-van-dusen', 400],
    ['callendar-van-dusen', 1e9],
    ['gauge-length-sine', 7999],
    ['steinhart-hart', 1e9],
    ['steinhart-hart', 1],
    ['beta', 0],
    ['beta', -100],
    ['beta', 1e9],
    ['beta', 1],
    ['current-span', 3.6],
    ['current-span', 0],
    ['current-span', 21],
    ['current-span', 7999],
    ['quarter-bridge', 500],
    ['rain-counter', -1],
    ['sine-to-tilt', 1001],
    ['tilt-to-sine', 7999],
  ] as const)('%s of %d', (kind, x) => {
    const parameters = {
      ...{ a: 1.4e-3, b: 2.37e-4, c: 1e-7, r0: 100, length: 2, r25: 3000, beta: 3900 },
      ...{ low: 0, high: 700, unit: 'kPa', gaugeFactor: 2, sense: 1, mmPerTip: 0.2 },
    }
    expect(steps[kind].apply(x, parameters, companions)).toBeNull()
    expect(steps[kind].derivative(x, parameters, companions)).toBeNaN()
  })

  test('what cannot have been read cannot be inverted to', () => {
    expect(steps['steinhart-hart'].invert(-300, { a: 1.4e-3, b: 2.37e-4, c: 1e-7 }, companions)).toBeNull()
    expect(steps['callendar-van-dusen'].invert(-201, { r0: 100 }, companions)).toBeNull()
    expect(steps['gauge-length-sine'].invert(2001, { length: 2 }, companions)).toBeNull()
    expect(steps.polynomial.invert(5, { c0: 0, c1: 1, c2: -1, unit: 'mm' }, companions)).toBeNull()
    expect(steps['frequency-squared'].invert(-1, {}, companions)).toBeNull()
  })
})

test('the curve without a linear term is undone on its positive side', () => {
  expect(steps.polynomial.invert(8, { c0: 0, c1: 0, c2: 2, unit: 'mm' }, companions)).toBe(2)
})

const largest = (parameters: StepParameters): number =>
  Math.max(
    300,
    ...Object.values(parameters).map((value) => (typeof value === 'number' ? Math.abs(value) : 0)),
  )
