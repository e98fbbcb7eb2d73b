import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { quality } from '#domain/reduction/quality.ts'
import { deriveMeasured } from '../../published/derive-measured.ts'
import { handDifference } from './check-by-hand.ts'
import { amount, near } from './made-measures.ts'
import { instrumentRow, pointRow, sensorRow, thermalSplitBundle } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

describe('strut with a thermal factor', () => {
  test('its share and what is left add up to the mean of its gauges', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(amount, amount), { minLength: 1, maxLength: 5 }), (gauges) => {
        const derived = deriveMeasured({
          instrument: { kind: 'strut-load', thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 10 },
          unit: 'kN',
          points: gauges.map(([force, temperature], at) => ({ id: `G${at}`, read: { force, temperature } })),
        })
        const warmth = gauges.reduce((sum, [, temperature]) => sum + temperature, 0) / gauges.length
        near(derived['I/thermal-force'], 7.5 * (warmth - 10), 5000)
        const parts = (derived['I/thermal-force'] ?? 0) + (derived['I/force-less-thermal'] ?? 0)
        near(derived['I/force'], parts, 5000)
      }),
      { seed: 35 },
    )
  })

  test('keeps its split, from those that are left, where a gauge or a thermometer has died', () => {
    const split = (
      ...gauges: readonly { readonly force: number | null; readonly temperature: number | null }[]
    ) => {
      const bundle = thermalSplitBundle(gauges.length)
      const read = gauges.flatMap(({ force, temperature }, at) => [
        [`ST-1-${at + 1}/force`, { value: force, quality: 0 }] as const,
        [`ST-1-${at + 1}/temperature`, { value: temperature, quality: 0 }] as const,
      ])
      return deriveValues(bundle, new Map(read))
    }
    const whole = { force: 1000, temperature: 20 }
    // 7.5 kN for each kelvin above 12 °C: 60 kN at 20 °C.
    expect(split(whole, whole)).toEqual([
      { value: 60, quality: 0 },
      { value: 940, quality: 0 },
    ])
    // A dead gauge whose thermometer lives says no less of the warmth.
    expect(split(whole, { force: null, temperature: 24 })).toEqual([
      { value: 75, quality: 0 },
      { value: 925, quality: quality.incomplete },
    ])
    expect(split(whole, { force: null, temperature: null }, { force: 1100, temperature: 22 })).toEqual([
      { value: 67.5, quality: quality.incomplete },
      { value: 982.5, quality: quality.incomplete },
    ])
    expect(split({ force: 1000, temperature: null }, { force: 1000, temperature: null })).toEqual([
      { value: null, quality: quality.incomplete },
      { value: null, quality: quality.incomplete },
    ])
  })

  test('its trail checks by hand and says that some stand for the others', () => {
    const bundle = thermalSplitBundle(3)
    const read = (id: string, raw: number, unit: string) =>
      readingOf({ series: id, raw, rawUnit: unit, unit }, [
        { kind: 'linear', parameters: { factor: 1, offset: 0, unit } },
      ])
    const trail = derivedTrail(bundle, 'ST-1/force-less-thermal', 600_000, [
      read('ST-1-1/force', 1000.5, 'kN'),
      read('ST-1-1/temperature', 21.3, 'degC'),
      read('ST-1-3/force', 1210, 'kN'),
      read('ST-1-3/temperature', 18.1, 'degC'),
    ])
    expect(trail.value).toBeCloseTo((1000.5 + 1210) / 2 - 7.5 * ((21.3 + 18.1) / 2 - 12), 9)
    // Of each 0.3: forces 0.3/√2, warmth 7.5 · 0.3/√2.
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 7.5 * 0.3) / Math.SQRT2, 9)
    for (const { sentence } of trail.derived) expect(handDifference(sentence), sentence).toBeLessThan(1e-9)
    expect(trail.derived[0]?.sentence).toContain(
      'Mean of 2 of 3 thermometers, the others stand for the 1 without a value',
    )
    expect(trail.cautions).toContain(
      'ST-1/force-less-thermal: Made from fewer members than it should be, or not made because one was missing.',
    )
  })

  test('takes the companion of its gauges where none has a thermometer of its own', () => {
    const made = derivedBundles({
      instruments: [
        { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 10 },
        instrumentRow('AT', 'air-temperature'),
      ],
      points: [pointRow('G0', 'ST', 0), pointRow('G1', 'ST', 0), pointRow('A1', 'AT', 0)],
      sensors: [
        ...['G0', 'G1'].map((id) => ({
          ...sensorRow(id, 'force', 'kN'),
          temperatureSensor: 'A1/temperature',
        })),
        sensorRow('A1', 'temperature', 'degC'),
      ],
      locations: [],
      strata: [],
    })
    expect(made.ok && made.value[1]?.slots.map(({ series }) => series)).toEqual([
      ['G0/force'],
      ['G1/force'],
      ['A1/temperature'],
    ])
  })

  test('is refused without the temperature at which its share is nil', () => {
    const site = (thermalReferenceDegC: number | null) => ({
      instruments: [
        { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC },
      ],
      points: [pointRow('G0', 'ST', 0), pointRow('G1', 'ST', 0)],
      sensors: ['G0', 'G1'].flatMap((id) => [
        sensorRow(id, 'force', 'kN'),
        sensorRow(id, 'temperature', 'degC'),
      ]),
      locations: [],
      strata: [],
    })
    const made = derivedBundles(site(10))
    expect(made.ok && made.value.flatMap(({ outputs }) => outputs.map(({ id }) => id))).toEqual([
      'ST/force',
      'ST/thermal-force',
      'ST/force-less-thermal',
    ])
    const without = derivedBundles(site(null))
    expect(without.ok ? [] : without.issues.map(({ code }) => code)).toEqual(['thermal-reference-expected'])
  })
})
