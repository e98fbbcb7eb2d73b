import type { Calibration, CalibrationStep } from '#domain/reduction/chain.ts'
import type { TrailReading } from '#domain/reduction/trail-source.ts'

const calibrationOf = (
  sensor: string,
  steps: readonly CalibrationStep[],
  standardUncertainty = 0.3,
): Calibration => ({
  id: `CC-${sensor}/1`,
  sensor,
  version: 1,
  validFromEpochMs: 0,
  certificate: `certificate of ${sensor}`,
  standardUncertainty,
  steps,
})

/** A raw reading with its calibration; give what a test is about. */
export const readingOf = (
  given: Partial<TrailReading> & Pick<TrailReading, 'series' | 'raw' | 'rawUnit' | 'unit'>,
  steps: readonly CalibrationStep[],
): TrailReading => ({
  logger: 'LG-01',
  channel: '3',
  atEpochMs: 600_000,
  receivedAtEpochMs: 660_000,
  fileName: 'LG-01.csv',
  sha256: 'ab'.repeat(32),
  calibration: calibrationOf(given.series, steps),
  rawResolution: null,
  temperature: null,
  barometer: null,
  quality: 0,
  ...given,
})

const thermistor = readingOf({ series: 'PZ-1A/temperature', raw: 5000, rawUnit: 'ohm', unit: 'degC' }, [
  { kind: 'steinhart-hart', parameters: { a: 1.4051e-3, b: 2.369e-4, c: 1.019e-7 } },
])

const barometer = readingOf(
  {
    series: 'BM-1/barometric-pressure',
    raw: 12.5,
    rawUnit: 'mA',
    unit: 'kPa',
    atEpochMs: 300_000,
    logger: 'LG-02',
  },
  [{ kind: 'current-span', parameters: { low: 80, high: 120, unit: 'kPa' } }],
)

/** An unvented piezometer with its thermistor at the same instant and its barometer five minutes older. */
export const piezometer = readingOf(
  { series: 'PZ-1A/pore-pressure', raw: 345, rawUnit: 'us', unit: 'kPa', temperature: thermistor, barometer },
  [
    { kind: 'period-to-frequency', parameters: {} },
    { kind: 'frequency-squared', parameters: {} },
    { kind: 'linear', parameters: { factor: -0.158, offset: 1406.2, unit: 'kPa' } },
    { kind: 'thermal', parameters: { factor: -0.045, reference: 12 } },
    { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 120 } },
  ],
)
