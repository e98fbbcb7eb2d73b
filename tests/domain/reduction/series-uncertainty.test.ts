import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { zeroBaseline } from '#domain/baseline/zero-baseline.ts'
import { groupBy } from '#domain/group-by.ts'
import type { Calibration, CalibrationStep } from '#domain/reduction/chain.ts'
import { changeBetween, changeSentence } from '#domain/reduction/change-uncertainty.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { seriesUncertainty } from '#domain/reduction/published-uncertainty.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { periodAt, sensorUncertainty } from '#domain/reduction/series-uncertainty.ts'
import { readingTrail } from '#domain/reduction/trail.ts'
import { readSite, siteFiles } from '#domain/site/read-site.ts'
import type { Sensor, SensorBarometer, ZeroReading } from '#domain/site/tables.ts'
import { inclinometerBundle, sensorRow, strutBundle, thermalSplitBundle } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

const linear: readonly CalibrationStep[] = [
  { kind: 'linear', parameters: { factor: -2, offset: 20, unit: 'kPa' } },
]
const calibration = (
  sensor: string,
  version: number,
  steps: readonly CalibrationStep[] = linear,
  standardUncertainty = 0.3,
): Calibration => ({
  id: `${sensor}/${version}`,
  sensor,
  version,
  validFromEpochMs: version * 1000,
  certificate: null,
  standardUncertainty,
  steps,
})
const sensor: Sensor = { ...sensorRow('PZ-1', 'pore-pressure', 'kPa'), rawResolution: 0.1 }
const zeroReadings: readonly ZeroReading[] = [9.9, 10.1, 9.9, 10.1].map((raw, at) => ({
  calibration: 'PZ-1/pore-pressure/1',
  at,
  raw,
  temperatureDegC: null,
  barometerKpa: null,
  author: 'A. Reed',
}))
const periodsOf = (
  sensors: readonly Sensor[],
  calibrations: readonly Calibration[],
  zeros: readonly ZeroReading[] = [],
  id = sensors[0]?.id ?? '',
  sensorBarometers: readonly SensorBarometer[] = [],
) =>
  sensorUncertainty(
    { sensors, sensorBarometers, zeroReadings: zeros },
    groupBy(calibrations, (one) => one.sensor),
  )(id)

describe('what a series is published with', () => {
  const [first, second] = [calibration(sensor.id, 1), calibration(sensor.id, 2)]
  // Raw steps of 0.1 carried by −2; values scatter by 0.4/√3 kPa, half of it for the mean of four.
  const resolution = (2 * 0.1) / Math.sqrt(12)
  const scatter = 0.4 / Math.sqrt(3)

  test('holds calibration, zero, scatter and resolution, and tells what does not cancel', () => {
    const periods = periodsOf([sensor], [first, second], zeroReadings)
    expect(periods.map(({ fromEpochMs, commonSinceEpochMs }) => [fromEpochMs, commonSinceEpochMs])).toEqual([
      [1000, 1000],
      [2000, 2000],
    ])
    expect(periods[0]?.standardUncertainty).toBeCloseTo(Math.hypot(0.3, scatter / 2, scatter, resolution), 12)
    expect(periods[0]?.independent).toBeCloseTo(Math.hypot(scatter, resolution), 12)
    // No zero readings: what is in the certificate cannot be parted.
    expect(periods[1]?.standardUncertainty).toBeCloseTo(Math.hypot(0.3, resolution), 12)
    expect(periods[1]?.independent).toBeNull()
  })

  test('is what the trail of a value says', () => {
    const zero = zeroBaseline(first, zeroReadings)
    const reading = readingOf({ series: sensor.id, raw: 31, rawUnit: 'count', unit: 'kPa' }, linear)
    const trail = readingTrail({ ...reading, calibration: first, zero, rawResolution: 0.1 })
    const [published] = periodsOf([sensor], [first], zeroReadings)
    expect(trail.standardUncertainty).toBeCloseTo(published?.standardUncertainty ?? Number.NaN, 12)
    expect(trail.sources[0]?.uncertaintySentences.at(-1)).toBe(
      'Resolution: the reading changes in steps of 0.1 counts, a rectangle of that width, whose standard uncertainty is the width / √12 = 0.029 counts (JCGM 100, F.2.2.1), here 0.058 kPa; it is in the standard uncertainty of this value.',
    )
  })

  test('takes in its companions, from when they are calibrated anew', () => {
    const barometer = sensorRow('BA', 'barometric-pressure', 'kPa')
    const steps = [
      ...linear,
      { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 60 } } as const,
    ]
    const periods = periodsOf(
      [{ ...sensor, barometerSensor: barometer.id }, barometer],
      [
        calibration(sensor.id, 1, steps),
        calibration(barometer.id, 0),
        calibration(barometer.id, 3, linear, 0.4),
      ],
    )
    expect(periods.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      expect.closeTo(Math.hypot(0.3, resolution, 0.3), 12),
      expect.closeTo(Math.hypot(0.3, resolution, 0.4), 12),
    ])
    expect(periods.map(({ commonSinceEpochMs }) => commonSinceEpochMs)).toEqual([1000, 1000])
  })

  test('takes in another barometer from when it corrects the sensor; between the two nothing cancels', () => {
    const [first, second] = ['BA', 'BB'].map((point) => sensorRow(point, 'barometric-pressure', 'kPa'))
    const steps = [
      ...linear,
      { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 60 } } as const,
    ]
    const periods = periodsOf(
      [{ ...sensor, barometerSensor: first?.id ?? '' }, first as Sensor, second as Sensor],
      [
        calibration(sensor.id, 1, steps),
        calibration(first?.id ?? '', 0),
        calibration(second?.id ?? '', 0, linear, 0.4),
      ],
      [],
      sensor.id,
      [
        {
          sensor: sensor.id,
          version: 1,
          validFrom: 5000,
          barometer: second?.id ?? '',
          author: 'A. Reed',
          reason: 'nearer',
        },
      ],
    )
    expect(periods.map(({ fromEpochMs }) => fromEpochMs)).toEqual([1000, 5000])
    expect(changeBetween(periods, 4999, 5000)?.basis).toBe('recalibrated')
    expect(periods.map(({ commonSinceEpochMs }) => commonSinceEpochMs)).toEqual([1000, 5000])
    expect(periods.map(({ standardUncertainty }) => standardUncertainty)).toEqual([
      expect.closeTo(Math.hypot(0.3, resolution, 0.3), 12),
      expect.closeTo(Math.hypot(0.3, resolution, 0.4), 12),
    ])
  })

  test('carries a resolution by the slope in the middle of the range where the chain bends', () => {
    const squared: readonly CalibrationStep[] = [
      { kind: 'frequency-squared', parameters: {} },
      { kind: 'linear', parameters: { factor: -0.2, offset: 1800, unit: 'kPa' } },
    ]
    const ranged = { ...sensor, rangeLow: 0, rangeHigh: 400 }
    const [period] = periodsOf([ranged], [calibration(sensor.id, 1, squared)])
    // 200 kPa is at f² / 1000 = 8000; a step of 0.1 Hz there is 2 f / 1000 · 0.2 · 0.1 kPa.
    const step = ((2 * Math.sqrt(8e6)) / 1000) * 0.2 * 0.1
    expect(period?.standardUncertainty).toBeCloseTo(Math.hypot(0.3, step / Math.sqrt(12)), 12)
  })
})

describe('what an instrument derives', () => {
  test.each([
    ['mean of a strut', strutBundle(4), 0.3 / 2],
    ['sum from a toe', inclinometerBundle(5, 'toe'), 0.3 * Math.sqrt(5)],
    ['force less a thermal share', thermalSplitBundle(3), Math.hypot(0.3, 7.5 * 0.3) / Math.sqrt(3)],
    ['greatest of sums, at its widest', inclinometerBundle(5, 'head'), 0.3 * Math.sqrt(5)],
  ])('is published as its trail says: %s', (name, bundle, expected) => {
    const ids = bundle.slots.flatMap(({ series }) => series.slice(0, 1))
    const calibrations = ids.map((id) => calibration(id, 1))
    const published = seriesUncertainty(
      {
        sensors: ids.map((id) => ({ ...sensorRow('X', 'force', 'kN'), id })),
        sensorBarometers: [],
        zeroReadings: [],
      },
      groupBy(calibrations, ({ sensor: id }) => id),
      [bundle],
    )
    const output =
      bundle.outputs.find(
        ({ of }) => of === (name.startsWith('sum') ? 0 : name.startsWith('force') ? 1 : 'whole'),
      )?.id ?? ''
    const trail = derivedTrail(
      bundle,
      output,
      5000,
      calibrations.map((one, at) => ({
        ...readingOf({ series: one.sensor, raw: 13 + at, rawUnit: 'count', unit: 'kN' }, linear),
        calibration: one,
      })),
    )
    expect(periodAt(published(output), 5000)?.standardUncertainty).toBeCloseTo(expected, 12)
    expect(trail.standardUncertainty).toBeCloseTo(expected, 12)
  })

  test('is unknown while a segment has no calibration, but not where a gauge of some has none', () => {
    const known = (bundle: ReturnType<typeof strutBundle>) => {
      const ids = bundle.slots.flatMap(({ series }) => series.slice(0, 1)).slice(1)
      return seriesUncertainty(
        {
          sensors: ids.map((id) => ({ ...sensorRow('X', 'force', 'kN'), id })),
          sensorBarometers: [],
          zeroReadings: [],
        },
        groupBy(
          ids.map((id) => calibration(id, 1)),
          ({ sensor: id }) => id,
        ),
        [bundle],
      )(bundle.outputs[0]?.id ?? '')
    }
    expect(known(inclinometerBundle(4, 'toe'))).toEqual([])
    expect(known(strutBundle(4))[0]?.standardUncertainty).toBeCloseTo(0.3 / Math.sqrt(3), 12)
  })
})

describe('a change between two instants', () => {
  const periods = [
    { fromEpochMs: 0, commonSinceEpochMs: 0, standardUncertainty: 5, independent: 3 },
    { fromEpochMs: 10, commonSinceEpochMs: 0, standardUncertainty: 6, independent: 4 },
    { fromEpochMs: 20, commonSinceEpochMs: 20, standardUncertainty: 12, independent: null },
  ]
  test.each([
    [1, 9, 3 * Math.SQRT2, 'cancels'],
    [1, 11, 5, 'cancels'],
    [1, 21, 13, 'recalibrated'],
    [21, 22, 12 * Math.SQRT2, 'not-split'],
  ])('%d to %d', (one, other, standardUncertainty, basis) => {
    const change = changeBetween(periods, one, other)
    expect(change?.basis).toBe(basis)
    expect(change?.standardUncertainty).toBeCloseTo(standardUncertainty, 12)
  })

  test('is not known before the first calibration', () => {
    expect(changeBetween(periods, -1, 5)).toBeNull()
    expect(changeSentence(periods, -1, 'kPa')).toBeNull()
  })

  test('is said in words, with the wide side where shares are not known', () => {
    expect(changeSentence(periods, 5, 'kPa')).toContain(
      'has a standard uncertainty of 4.2 kPa: that of calibration',
    )
    expect(changeSentence(periods, 25, 'kPa')).toContain('at most 17 kPa')
  })
})

describe('the sample site', () => {
  const folder = new URL('../../../sample-site/', import.meta.url)
  const files = new Map(
    readdirSync(folder)
      .filter((file) => siteFiles.includes(file))
      .map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]),
  )
  test('publishes every sensor with decimals no coarser than its uncertainty', () => {
    const site = readSite(files)
    if (!site.ok) throw new Error('the sample site has faults')
    const read = readCalibrations(site.value)
    if (!read.ok) throw new Error('the sample calibrations have faults')
    const of = sensorUncertainty(
      site.value,
      groupBy(read.value, ({ sensor: id }) => id),
    )
    const coarse = site.value.sensors.filter(
      ({ id, decimals }) => 10 ** -decimals > (of(id).at(-1)?.standardUncertainty ?? 0) + 1e-12,
    )
    expect(coarse.map(({ id }) => id)).toEqual([])
  })
})
