import { describe, expect, test } from 'vitest'
import { levelsInsideNoise } from '#domain/baseline/levels-inside-noise.ts'
import { zeroBaseline } from '#domain/baseline/zero-baseline.ts'
import { baselineSentence, zeroUncertaintySentence } from '#domain/baseline/zero-sentences.ts'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { readingTrail } from '#domain/reduction/trail.ts'
import type { TriggerLevel, ZeroReading } from '#domain/site/tables.ts'
import { readingOf } from '../reduction/sample-readings.ts'

const steps: readonly CalibrationStep[] = [
  { kind: 'linear', parameters: { factor: 2, offset: -20, unit: 'kPa' } },
  { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 90 } },
]
const calibration = { id: 'CC-1/1', steps }
const readings = (raws: readonly number[], barometerKpa = 101): readonly ZeroReading[] =>
  raws.map((raw, at) => ({
    calibration: 'CC-1/1',
    at: at * 60_000,
    raw,
    temperatureDegC: null,
    barometerKpa,
    author: 'A. Reed',
  }))
const baselineOf = (raws: readonly number[], barometerKpa?: number) => {
  const baseline = zeroBaseline(calibration, readings(raws, barometerKpa))
  if (!baseline) throw new Error('no baseline')
  return baseline
}
// Values −0.2, 0.2, −0.2, 0.2 kPa: standard deviation 0.4/√3, lag-one correlation negative and so no gain.
const swinging = [9.9, 10.1, 9.9, 10.1]

describe('zeroBaseline', () => {
  test('reduces each reading by its own chain, air pressure and all', () => {
    expect(baselineOf([10, 10.1], 101.5).mean).toBeCloseTo(0.1 - 0.5, 12)
  })

  test('gives spread, standard error and the smallest detectable change', () => {
    const scatter = 0.4 / Math.sqrt(3)
    const baseline = baselineOf(swinging)
    expect(baseline).toMatchObject({ count: 4, effectiveCount: 4 })
    expect(baseline.repeatability).toBeCloseTo(scatter, 12)
    expect(baseline.standardError).toBeCloseTo(scatter / 2, 12)
    // (1.95996 + 0.84162) s √(1 + 1/4)
    expect(baseline.smallestDetectableChange).toBeCloseTo(2.801585 * scatter * Math.sqrt(1.25), 5)
  })

  test('readings that drift together are worth fewer, in order of time however they are written', () => {
    const drifting = [10, 10.1, 10.2, 10.3, 10.4, 10.5, 10.6, 10.7]
    const baseline = baselineOf(drifting)
    // Lag-one correlation of 1 … 8 is 5/8: 8 · (3/8) / (13/8) independent readings.
    expect(baseline.effectiveCount).toBeCloseTo(24 / 13, 9)
    expect(baseline.standardError).toBeCloseTo((baseline.repeatability ?? 0) / Math.sqrt(24 / 13), 12)
    expect(zeroBaseline(calibration, [...readings(drifting)].reverse())).toEqual(baseline)
  })

  test('of one reading, or of readings all the same, the zero is not claimed to be known', () => {
    expect(baselineOf([10])).toMatchObject({ count: 1, repeatability: null, standardError: null })
    expect(baselineOf([10, 10, 10])).toMatchObject({ repeatability: 0, standardError: null })
    expect(baselineSentence(baselineOf([10]), 'kPa')).toContain('it has no spread')
    expect(baselineSentence(baselineOf([10, 10, 10]), 'kPa')).toContain('below what the reading resolves')
    expect(zeroUncertaintySentence(baselineOf([10]), 'kPa')).toBeNull()
  })

  test('is of its own calibration alone', () => {
    expect(zeroBaseline({ id: 'CC-1/2', steps }, readings(swinging))).toBeNull()
  })

  test('is said in words with units', () => {
    expect(baselineSentence(baselineOf(swinging), 'kPa')).toBe(
      'Baseline of 4 readings: mean 0 kPa, repeatability 0.23 kPa (standard deviation, itself known to about 41 %), standard error of the zero 0.12 kPa. Smallest change from the zero that a single reading shows above such scatter: 0.72 kPa (95 % confidence, 80 % power).',
    )
  })
})

describe('a value under a calibration with zero readings', () => {
  const linear = steps.slice(0, 1)
  const reading = readingOf({ series: 'PZ-1/pore-pressure', raw: 30, rawUnit: 'mV', unit: 'kPa' }, linear)
  const zero = baselineOf(swinging)

  test('carries the standard error of its zero and the scatter of single readings in quadrature, and says so', () => {
    const without = readingTrail(reading)
    const trail = readingTrail({ ...reading, zero })
    expect(without.sources[0]?.uncertaintySentences).toEqual([])
    expect(trail.value).toBe(without.value)
    expect(trail.standardUncertainty).toBeCloseTo(
      Math.hypot(
        without.standardUncertainty ?? Number.NaN,
        zero.standardError ?? Number.NaN,
        zero.repeatability ?? Number.NaN,
      ),
      12,
    )
    const [ofZero, ofScatter] = trail.sources[0]?.uncertaintySentences ?? []
    expect(ofZero).toContain('cancels in the change between two of them')
    expect(ofScatter).toContain('their standard deviation of 0.23 kPa is in it too')
    expect(trail.sources[0]?.steps.at(-1)?.standardUncertainty).toBe(trail.standardUncertainty)
  })
})

describe('levelsInsideNoise', () => {
  const level = (value: number, change: Partial<TriggerLevel> = {}): TriggerLevel => ({
    id: `TL ${value}`,
    series: 'PZ-1/pore-pressure',
    level: 1,
    direction: 'above',
    value,
    validFrom: 1000,
    validUntil: null,
    action: 'read again',
    owner: 'engineer',
    withinMinutes: 60,
    reason: 'design',
    author: 'A. Reed',
    approver: 'B. Moss',
    ...change,
  })
  const held = (fromEpochMs: number, untilEpochMs: number | null) => [
    { calibration: 'CC-1/1', fromEpochMs, untilEpochMs, baseline: baselineOf(swinging) },
  ]

  test('a level nearer than the smallest detectable change is told, one beyond it is not', () => {
    const told = levelsInsideNoise([level(0.5), level(0.8), level(-0.5)], held(0, null), 'kPa')
    expect(told.map(({ level }) => level)).toEqual(['TL 0.5', 'TL -0.5'])
    expect(told[0]?.sentence).toContain('lies 0.5 kPa from the mean zero of CC-1/1')
  })

  test('only under calibrations in force during the time of the level', () => {
    expect(levelsInsideNoise([level(0.5)], held(0, 1000), 'kPa')).toEqual([])
    expect(levelsInsideNoise([level(0.5, { validUntil: 2000 })], held(2000, null), 'kPa')).toEqual([])
    const unread = held(0, null).map((one) => ({ ...one, baseline: null }))
    expect(levelsInsideNoise([level(0.5)], unread, 'kPa')).toEqual([])
  })
})
