import { describe, expect, test } from 'vitest'
import { trailSchema } from '#contract/trail.ts'
import { readingTrail } from '#domain/reduction/trail.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { handDifference } from './check-by-hand.ts'
import { piezometer } from './sample-readings.ts'

const tip = { levelMetres: -14, water: siteWater({}) }

describe('readingTrail', () => {
  const trail = readingTrail(piezometer, tip)

  test('leads from pressure and level back to period, resistance and loop current', () => {
    expect(
      trail.sources.map(({ role, raw, rawUnit, value }) => [role, raw, rawUnit, value?.toFixed(4)]),
    ).toEqual([
      ['reading', 345, 'us', '78.7200'],
      ['temperature', 5000, 'ohm', '13.7296'],
      ['barometer', 12.5, 'mA', '101.2500'],
    ])
    expect(trail.sources[0]?.steps.map(({ kind, output }) => [kind, output?.toFixed(4)])).toEqual([
      ['period-to-frequency', '2898.5507'],
      ['frequency-squared', '8401.5963'],
      ['linear', '78.7478'],
      ['thermal', '78.6700'],
      ['barometric', '78.7200'],
    ])
  })

  test('goes on to pressure head and piezometric level', () => {
    expect(trail.derived.map(({ kind }) => kind)).toEqual(['pressure-head', 'piezometric-level'])
    expect(trail.derived.at(-1)?.output).toBeCloseTo(-14 + (trail.value ?? Number.NaN) / 9.81, 12)
    expect(trail.derived.at(-1)?.standardUncertainty).toBeCloseTo(
      (trail.standardUncertainty ?? Number.NaN) / 9.81,
      12,
    )
  })

  test('says which unit weight of water it took, and takes the one that the site states', () => {
    expect(trail.derived[0]?.sentence).toContain('the customary 9.81 kN/m³; the site states no other.')
    const salty = readingTrail(piezometer, { ...tip, water: siteWater({ waterUnitWeightKnPerM3: 10.05 }) })
    expect(salty.derived[0]?.sentence).toContain('as the site states it: 10.05 kN/m³.')
    expect(salty.derived[0]?.output).toBeCloseTo((trail.value ?? Number.NaN) / 10.05, 12)
  })

  test('carries the uncertainty of thermistor and barometer into that of the pressure, and ends on the whole', () => {
    // Calibration 0.3 kPa; thermistor 0.3 °C at −0.045 kPa/°C; barometer 0.3 kPa at −1.
    const whole = Math.hypot(0.3, 0.045 * 0.3, 0.3)
    expect(trail.standardUncertainty).toBeCloseTo(whole, 12)
    expect(trail.sources[0]?.steps.at(-1)?.standardUncertainty).toBeCloseTo(whole, 12)
    expect(trail.sources[0]?.steps.at(-2)?.standardUncertainty).toBeCloseTo(0.045 * 0.3, 12)
    expect(trail.sources[0]?.steps[0]?.standardUncertainty).toBeNull()
  })

  test('every sentence checks by hand to ten digits', () => {
    const sentences = [...trail.sources.flatMap(({ steps }) => steps), ...trail.derived]
    expect(sentences.length).toBe(9)
    for (const { sentence } of sentences) expect(handDifference(sentence), sentence).toBeLessThan(1e-5)
  })

  test('says what is doubtful: the barometer is five minutes older', () => {
    expect(trail.cautions).toEqual([
      'BM-1/barometric-pressure: read 5 min before PZ-1A/pore-pressure, which it corrects.',
    ])
  })

  test('crosses the wire as it is', () => {
    expect(trailSchema.parse(trail)).toEqual(trail)
  })

  test('without a barometer has no value and says so; without a level of the tip stops at the pressure', () => {
    const blind = readingTrail({ ...piezometer, barometer: null }, tip)
    expect(blind.value).toBeNull()
    expect(blind.derived).toEqual([])
    expect(blind.cautions[0]).toContain('No barometer reading')
    expect(blind.sources[0]?.steps.at(-1)).toMatchObject({ kind: 'barometric', output: null })
    expect(readingTrail(piezometer).derived).toEqual([])
  })

  test('before the first calibration there is a reading and no value', () => {
    const early = readingTrail({ ...piezometer, calibration: null })
    expect(early.value).toBeNull()
    expect(early.sources).toMatchObject([
      { calibration: null, calibrationVersion: null, steps: [], raw: 345 },
    ])
    expect(early.cautions[0]).toContain('No calibration')
    expect(trailSchema.parse(early)).toEqual(early)
  })
})
