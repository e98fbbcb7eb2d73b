import { describe, expect, it } from 'vitest'
import type { CalibrationStep, Companions } from '#domain/reduction/chain.ts'
import { changeBetween } from '#domain/reduction/change-uncertainty.ts'
import { uncertaintySources } from '#domain/reduction/reading-uncertainty.ts'
import { runChain } from '#domain/reduction/run-chain.ts'
import { steps as stepsByKind } from '#domain/reduction/steps.ts'
import {
  chainUncertainty,
  changeUncertainty,
  combine,
  rectangularUncertainty,
  resolutionUncertainty,
  type UncertaintySources,
  uncertaintyShares,
} from '#domain/reduction/uncertainty.ts'
import { mean, standardDeviation } from '#domain/statistics/spread.ts'
import { randomFrom } from '../statistics/random-values.ts'

/** One real chain around each kind of step, with readings and uncertainties as their sensors have them. */
const chains: readonly {
  readonly name: string
  readonly raw: number
  readonly sources: UncertaintySources
  readonly companions: Companions
  readonly steps: readonly CalibrationStep[]
}[] = [
  {
    name: 'vibrating wire, period, thermal, barometer, zero, unit',
    raw: 345.12,
    sources: { raw: 0.02, calibration: 0.2, temperatureDegC: 0.3, barometerKpa: 0.05 },
    companions: { temperatureDegC: 11.4, barometerKpa: 101.9 },
    steps: [
      { kind: 'period-to-frequency', parameters: {} },
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'polynomial', parameters: { c0: 1400, c1: -0.16, c2: -1e-7, unit: 'kPa' } },
      { kind: 'thermal', parameters: { factor: 0.08, reference: 20 } },
      { kind: 'barometric', parameters: { reference: 100.1, maximumAgeMinutes: 60 } },
      { kind: 'zero', parameters: { value: 3.2 } },
      { kind: 'unit', parameters: { from: 'kPa', to: 'm[H2O]' } },
    ],
  },
  {
    name: 'thermistor',
    raw: 4120,
    sources: { raw: 6, calibration: 0.1, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [{ kind: 'steinhart-hart', parameters: { a: 1.4051e-3, b: 2.369e-4, c: 1.019e-7 } }],
  },
  {
    name: 'platinum resistance',
    raw: 107.2,
    sources: { raw: 0.04, calibration: 0.05, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [{ kind: 'callendar-van-dusen', parameters: { r0: 100 } }],
  },
  {
    name: 'current loop with barometer',
    raw: 11.3,
    sources: { raw: 0.004, calibration: 0.15, temperatureDegC: null, barometerKpa: 0.08 },
    companions: { temperatureDegC: null, barometerKpa: 99.2 },
    steps: [
      { kind: 'current-span', parameters: { low: 0, high: 350, unit: 'kPa' } },
      { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 60 } },
    ],
  },
  {
    name: 'voltage span, linear',
    raw: 3.1,
    sources: { raw: 0.002, calibration: 0.02, temperatureDegC: 0.5, barometerKpa: null },
    companions: { temperatureDegC: 24, barometerKpa: null },
    steps: [
      { kind: 'voltage-span', parameters: { lowVolts: 0, highVolts: 5, low: 0, high: 50, unit: 'mm' } },
      { kind: 'thermal', parameters: { factor: -0.02, reference: 15 } },
      { kind: 'linear', parameters: { factor: -1, offset: 12, unit: 'mm' } },
    ],
  },
  {
    name: 'bridge with the same temperature at two steps',
    raw: 1.2345,
    sources: { raw: 0.0004, calibration: 1, temperatureDegC: 0.5, barometerKpa: null },
    companions: { temperatureDegC: 31, barometerKpa: null },
    steps: [
      { kind: 'ratio-bridge', parameters: { zero: 0.01, sensitivity: 2, capacity: 3000, unit: 'kN' } },
      { kind: 'thermal', parameters: { factor: 1.5, reference: 20 } },
      { kind: 'thermal', parameters: { factor: -0.6, reference: 20 } },
    ],
  },
  {
    name: 'inclinometer segment',
    raw: 1.75,
    sources: { raw: 0.006, calibration: 0.03, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [
      { kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'deg' } },
      { kind: 'gauge-length-sine', parameters: { length: 2 } },
      { kind: 'zero', parameters: { value: 40 } },
    ],
  },
  {
    name: 'vibrating wire strain gauge',
    raw: 851.3,
    sources: { raw: 0.08, calibration: 3, temperatureDegC: 0.4, barometerKpa: null },
    companions: { temperatureDegC: 27.5, barometerKpa: null },
    steps: [
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'wire-strain', parameters: { lengthMetres: 0.15, densityKgPerM3: 7850, modulusGpa: 205 } },
      { kind: 'strain-temperature', parameters: { wire: 12.2, structure: 10, reference: 15 } },
      { kind: 'zero', parameters: { value: 2200 } },
    ],
  },
  {
    name: 'thermistor by its beta',
    raw: 6240,
    sources: { raw: 9, calibration: 0.15, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [{ kind: 'beta', parameters: { r25: 5000, beta: 3890 } }],
  },
  {
    name: 'resistance gauge in a quarter bridge, to total strain',
    raw: -1.42,
    sources: { raw: 0.003, calibration: 4, temperatureDegC: 0.6, barometerKpa: null },
    companions: { temperatureDegC: 8, barometerKpa: null },
    steps: [
      { kind: 'quarter-bridge', parameters: { gaugeFactor: 2.09, sense: -1, zero: 0.12 } },
      { kind: 'strain-temperature', parameters: { wire: 10.8, reference: 20 } },
    ],
  },
  {
    name: 'full bridge',
    raw: 0.871,
    sources: { raw: 0.0006, calibration: 1, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [{ kind: 'full-bridge', parameters: { gaugeFactor: 2.1, activeArms: 2.6, zero: 0.02 } }],
  },
  {
    name: 'potentiometer with its thermal term',
    raw: 0.4137,
    sources: { raw: 0.0004, calibration: 0.03, temperatureDegC: 1, barometerKpa: null },
    companions: { temperatureDegC: 3, barometerKpa: null },
    steps: [
      { kind: 'potentiometer', parameters: { low: 0, high: 150, unit: 'mm' } },
      { kind: 'thermal', parameters: { factor: 0.04, reference: 12 } },
    ],
  },
  {
    name: 'loop current across a shunt',
    raw: 2.871,
    sources: { raw: 0.0015, calibration: 0.2, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [
      { kind: 'shunt', parameters: { ohms: 249.7 } },
      { kind: 'current-span', parameters: { low: -50, high: 400, unit: 'kPa' } },
    ],
  },
  {
    name: 'rain across the roll-over of its counter',
    raw: -65_520,
    sources: { raw: 0.29, calibration: 0.05, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [{ kind: 'rain-counter', parameters: { mmPerTip: 0.2, rollsOverAt: 65_536 } }],
  },
  {
    name: 'steep tilt from its sine, in seconds of arc',
    raw: 2.113,
    sources: { raw: 0.0004, calibration: 20, temperatureDegC: 0.5, barometerKpa: null },
    companions: { temperatureDegC: 17, barometerKpa: null },
    steps: [
      { kind: 'linear', parameters: { factor: 160, offset: 4, unit: 'mm/m' } },
      { kind: 'thermal', parameters: { factor: 0.09, reference: 20 } },
      { kind: 'sine-to-tilt', parameters: {} },
      { kind: 'unit', parameters: { from: 'deg', to: "''" } },
    ],
  },
  {
    name: 'steep tilt to its sine',
    raw: 14.2,
    sources: { raw: 0.01, calibration: 0.1, temperatureDegC: null, barometerKpa: null },
    companions: { temperatureDegC: null, barometerKpa: null },
    steps: [
      { kind: 'tilt-to-sine', parameters: {} },
      { kind: 'zero', parameters: { value: 240 } },
    ],
  },
]

const trials = 40_000
/** Relative standard deviation of a standard deviation from that many Gaussian trials, 0.0035; five of them. */
const monteCarloError = 5 / Math.sqrt(2 * trials)
/** What second-order terms of these chains may add; the greatest is that of the wire's square. */
const curvature = 0.002

/** Values of a chain with everything uncertain drawn anew each time (JCGM 101, 7): independent and Gaussian. */
function trialValues(
  { raw, sources, companions, steps }: (typeof chains)[number],
  random: ReturnType<typeof randomFrom>,
): number[] {
  const drawn = (middle: number | null, u: number | null) =>
    middle === null ? null : middle + (u ?? 0) * random.gaussian()
  return Array.from({ length: trials }, () => {
    const { value } = runChain(drawn(raw, sources.raw), steps, {
      temperatureDegC: drawn(companions.temperatureDegC, sources.temperatureDegC),
      barometerKpa: drawn(companions.barometerKpa, sources.barometerKpa),
    })
    return (value ?? Number.NaN) + (sources.calibration ?? 0) * random.gaussian()
  })
}

describe('uncertainty by derivatives agrees with trials (JCGM 101)', () => {
  it.each(Object.keys(stepsByKind))('on a chain with %s', (kind) => {
    expect(chains.some(({ steps }) => steps.some((step) => step.kind === kind))).toBe(true)
  })

  it.each(chains)('$name', (chain) => {
    const values = trialValues(chain, randomFrom(101))
    const byTrials = standardDeviation(values)
    const byDerivatives = chainUncertainty(chain.raw, chain.steps, chain.companions, chain.sources)
    expect(byDerivatives).not.toBeNull()
    expect(Math.abs((byDerivatives ?? 0) / byTrials - 1)).toBeLessThan(monteCarloError + curvature)
    const { value } = runChain(chain.raw, chain.steps, chain.companions)
    expect(Math.abs(mean(values) - (value ?? 0))).toBeLessThan((5 * byTrials) / Math.sqrt(trials))
  })
})

describe('shapes of uncertainty agree with trials', () => {
  it('resolution and half-width are rectangles', () => {
    const random = randomFrom(5)
    const rounded = Array.from({ length: trials }, () => {
      const exact = 100 * random.uniform()
      return Math.round(exact / 0.1) * 0.1 - exact
    })
    expect(standardDeviation(rounded) / resolutionUncertainty(0.1)).toBeCloseTo(1, 1.7)
    const within = Array.from({ length: trials }, () => (2 * random.uniform() - 1) * 0.5)
    expect(standardDeviation(within) / rectangularUncertainty(0.5)).toBeCloseTo(1, 1.7)
  })

  it('a rounded raw reading through a bent chain, and the change of two such under one calibration', () => {
    const random = randomFrom(7)
    const steps: readonly CalibrationStep[] = [
      { kind: 'period-to-frequency', parameters: {} },
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'linear', parameters: { factor: -0.158, offset: 1406.2, unit: 'kPa' } },
    ]
    const none: Companions = { temperatureDegC: null, barometerKpa: null }
    const rawResolution = 0.5
    const sources = uncertaintySources({
      calibration: { standardUncertainty: 0.9 },
      zero: {
        count: 9,
        mean: 0,
        repeatability: 0.6,
        effectiveCount: 9,
        standardError: 0.2,
        smallestDetectableChange: null,
      },
      rawResolution,
      temperatureStandardUncertainty: null,
      barometerStandardUncertainty: null,
    })
    const shares = uncertaintyShares(345, steps, none, sources)
    const level = chainUncertainty(345, steps, none, sources) ?? Number.NaN
    const value = (raw: number) => runChain(raw, steps, none).value ?? Number.NaN
    /** How far off a reading is: its own rounding and scatter, and the offset that its calibration and zero share. */
    const off = (offset: number) => {
      const exact = 340 + 10 * random.uniform()
      const rounded = Math.round(exact / rawResolution) * rawResolution
      return value(rounded) - value(exact) + 0.6 * random.gaussian() + offset
    }
    const pairs = Array.from({ length: trials }, () => {
      const offset = 0.9 * random.gaussian() + 0.2 * random.gaussian()
      return [off(offset), off(offset)] as const
    })
    const of = (values: readonly number[]) => standardDeviation(values)
    // The slope differs by a few per cent over the ten microseconds that the readings come from.
    expect(Math.abs(of(pairs.map(([one]) => one)) / level - 1)).toBeLessThan(monteCarloError + curvature)
    const periods = [
      {
        fromEpochMs: 0,
        commonSinceEpochMs: 0,
        standardUncertainty: level,
        independent: shares?.independent ?? null,
      },
    ]
    const change = changeBetween(periods, 1, 2)?.standardUncertainty ?? Number.NaN
    const spread = of(pairs.map(([one, other]) => other - one))
    expect(Math.abs(spread / change - 1)).toBeLessThan(monteCarloError + curvature)
    expect(change).toBeLessThan(0.85 * changeUncertainty(level))
  })

  it('a change of one sensor does not hold the offset that both its readings share', () => {
    const random = randomFrom(6)
    const changes = Array.from({ length: trials }, () => {
      const offset = 0.2 * random.gaussian()
      return offset + 0.05 * random.gaussian() - (offset + 0.05 * random.gaussian())
    })
    const spread = standardDeviation(changes)
    expect(Math.abs(spread / changeUncertainty(0.05) - 1)).toBeLessThan(monteCarloError)
    expect(spread).toBeLessThan(0.3 * changeUncertainty(combine(0.2, 0.05)))
  })
})
