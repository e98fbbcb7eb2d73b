import { describe, expect, test } from 'vitest'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { quality } from '#domain/reduction/quality.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'

const unvented: readonly CalibrationStep[] = [
  { kind: 'period-to-frequency', parameters: {} },
  { kind: 'frequency-squared', parameters: {} },
  { kind: 'linear', parameters: { factor: -0.158, offset: 1406.2, unit: 'kPa' } },
  { kind: 'thermal', parameters: { factor: -0.045, reference: 12 } },
  { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 120 } },
]
const sources = { raw: 0.01, calibration: 0.3, temperatureDegC: 0.1, barometerKpa: 0.05 }

describe('reduceValue', () => {
  test('reduces a reading with its companions', () => {
    const reduced = reduceValue(345.03, unvented, { temperatureDegC: 9.5, barometerKpa: 99.1 }, sources)
    // By hand: 1e6/345.03 = 2898.298; ²/1000 = 8400.133; × −0.158 + 1406.2 = 78.979; + 0.1125; + 2.2.
    expect(reduced.value).toBeCloseTo(81.291, 2)
    expect(reduced.quality).toBe(0)
    expect(reduced.standardUncertainty).toBeGreaterThan(0.3)
    expect(reduced.standardUncertainty).toBeLessThan(0.32)
  })

  test('has no value without a barometer, and says why', () => {
    expect(reduceValue(345, unvented, { temperatureDegC: 9.5, barometerKpa: null }, sources)).toEqual({
      value: null,
      quality: quality.barometerMissing,
      standardUncertainty: null,
    })
  })

  test('without a temperature stands uncorrected, and says so', () => {
    const reduced = reduceValue(345.03, unvented, { temperatureDegC: null, barometerKpa: 99.1 })
    expect(reduced.value).toBeCloseTo(81.291 - 0.1125, 2)
    expect(reduced.quality).toBe(quality.temperatureMissing)
  })

  test.each([0, -345, Number.NaN, Infinity, -Infinity, null])('has no value for %s, and says why', (raw) => {
    expect(reduceValue(raw, unvented, { temperatureDegC: 9.5, barometerKpa: 99.1 })).toEqual({
      value: null,
      quality: quality.notComputable,
      standardUncertainty: null,
    })
  })

  test('keeps an overflow from becoming a number', () => {
    const twice: readonly CalibrationStep[] = [
      { kind: 'polynomial', parameters: { c0: 0, c1: 0, c2: 1, unit: 'mm' } },
      { kind: 'polynomial', parameters: { c0: 0, c1: 0, c2: 1, unit: 'mm' } },
    ]
    expect(reduceValue(1e100, twice, { temperatureDegC: null, barometerKpa: null })).toMatchObject({
      value: null,
      quality: quality.notComputable,
    })
  })
})
