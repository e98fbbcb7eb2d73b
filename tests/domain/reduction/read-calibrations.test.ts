import { describe, expect, test } from 'vitest'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import type { CalibrationRow, CalibrationStepRow, Sensor, SensorBarometer } from '#domain/site/tables.ts'
import { sensorRow } from './sample-bundles.ts'

const sensor: Sensor = {
  ...sensorRow('PZ-1A', 'pore-pressure', 'kPa'),
  rawUnit: 'us',
  temperatureSensor: 'PZ-1A/temperature',
  barometerSensor: 'BM-1/barometric-pressure',
}
const calibration: CalibrationRow = {
  id: 'CC-1/1',
  sensor: sensor.id,
  version: 1,
  validFrom: 1000,
  certificate: 'CC-1',
  calibratedAt: null,
  dueAt: null,
  standardUncertainty: 0.3,
  author: 'A. Surveyor',
  reason: 'installed',
}
const stepRow = (step: number, kind: CalibrationStepRow['kind'], parameters = ''): CalibrationStepRow => ({
  calibration: calibration.id,
  step,
  kind,
  parameters,
})
const chain = [
  stepRow(1, 'period-to-frequency'),
  stepRow(2, 'frequency-squared'),
  stepRow(3, 'linear', 'factor=-0.158;offset=1406.2;unit=kPa'),
  stepRow(4, 'thermal', 'factor=-0.045;reference=12'),
  stepRow(5, 'barometric', 'reference=101.3;maximumAgeMinutes=120'),
]
const read = (
  calibrationSteps: readonly CalibrationStepRow[],
  {
    sensors = [sensor],
    calibrations = [calibration],
    sensorBarometers = [],
  }: { sensors?: Sensor[]; calibrations?: CalibrationRow[]; sensorBarometers?: SensorBarometer[] } = {},
) => readCalibrations({ sensors, sensorBarometers, calibrations, calibrationSteps })
const faults = (...given: Parameters<typeof read>) => {
  const outcome = read(...given)
  return outcome.ok ? [] : outcome.issues
}

describe('readCalibrations', () => {
  test('makes a chain of the rows, in the order of their numbers', () => {
    expect(read(chain.toReversed())).toEqual({
      ok: true,
      value: [
        {
          id: 'CC-1/1',
          sensor: 'PZ-1A/pore-pressure',
          version: 1,
          validFromEpochMs: 1000,
          certificate: 'CC-1',
          standardUncertainty: 0.3,
          steps: [
            { kind: 'period-to-frequency', parameters: {} },
            { kind: 'frequency-squared', parameters: {} },
            { kind: 'linear', parameters: { factor: -0.158, offset: 1406.2, unit: 'kPa' } },
            { kind: 'thermal', parameters: { factor: -0.045, reference: 12 } },
            { kind: 'barometric', parameters: { reference: 101.3, maximumAgeMinutes: 120 } },
          ],
        },
      ],
    })
  })

  test('takes spellings of one unit as one', () => {
    const thermistor = { ...sensorRow('PZ-1A', 'temperature', 'degC'), rawUnit: 'ohm' }
    const row = { ...calibration, sensor: thermistor.id }
    const steps = [stepRow(1, 'steinhart-hart', 'a=1.4051e-3;b=2.369e-4;c=1.019e-7')]
    expect(read(steps, { sensors: [thermistor], calibrations: [row] }).ok).toBe(true)
  })

  test('refuses a coefficient that is missing, by record and step', () => {
    const [fault] = faults(chain.with(2, stepRow(3, 'linear', 'factor=-0.158;unit=kPa')))
    expect(fault).toMatchObject({
      code: 'parameter-missing',
      file: 'calibration-steps.csv',
      column: 'parameters',
    })
    expect(fault?.message).toContain('Calibration CC-1/1, step 3 (linear)')
    expect(fault?.message).toContain('offset')
  })

  test.each([
    ['the raw unit is another', chain.slice(1), 'Hz', 'µs'],
    [
      'a step is left out',
      [stepRow(1, 'period-to-frequency'), stepRow(2, 'gauge-length-sine', 'length=2')],
      '°',
      'Hz',
    ],
    [
      'the end is another unit',
      chain.with(2, stepRow(3, 'linear', 'factor=1;offset=0;unit=kN')),
      'kPa',
      'kN',
    ],
  ])('refuses a chain whose units do not join: %s', (_what, steps, wanted, given) => {
    const issues = faults(steps.map((row, index) => ({ ...row, step: index + 1 })))
    const fault = issues.find(({ code }) => code === 'units-do-not-join')
    expect(fault?.expected).toBe(wanted)
    expect(fault?.message).toContain(given)
  })

  test('refuses a barometric or thermal term for a sensor that names no companion', () => {
    const bare = { ...sensor, barometerSensor: null, temperatureSensor: null }
    expect(faults(chain, { sensors: [bare] }).map(({ code, column }) => [code, column])).toEqual([
      ['companion-not-named', 'temperatureSensor'],
      ['companion-not-named', 'barometerSensor'],
    ])
  })

  test('takes a barometer with a date for one named, from its date on', () => {
    const bare = { ...sensor, barometerSensor: null }
    const from = (validFrom: number): SensorBarometer => ({
      sensor: sensor.id,
      version: 1,
      validFrom,
      barometer: 'BM-2/barometric-pressure',
      author: 'A. Surveyor',
      reason: 'put up',
    })
    const of = (validFrom: number) => faults(chain, { sensors: [bare], sensorBarometers: [from(validFrom)] })
    expect(of(calibration.validFrom)).toEqual([])
    expect(of(calibration.validFrom + 1).map(({ column }) => column)).toEqual(['barometerSensor'])
  })

  test('refuses steps that are missing, repeated or none', () => {
    expect(faults([]).map(({ code }) => code)).toEqual(['steps-missing'])
    expect(faults(chain.with(1, { ...stepRow(3, 'frequency-squared') })).map(({ code }) => code)).toContain(
      'steps-not-in-order',
    )
  })

  test('refuses a sensor nobody knows and a version given twice', () => {
    expect(faults(chain, { sensors: [] }).map(({ code }) => code)).toEqual(['sensor-unknown'])
    const again = { ...calibration, id: 'CC-1/2' }
    const both = [...chain, ...chain.map((row) => ({ ...row, calibration: again.id }))]
    expect(faults(both, { calibrations: [calibration, again] }).map(({ code }) => code)).toEqual([
      'version-repeated',
    ])
  })

  test('refuses all when one is at fault, and reports every fault', () => {
    const other = { ...calibration, id: 'CC-2/1', version: 2 }
    const issues = faults([...chain, { ...stepRow(1, 'linear', 'factor=x'), calibration: other.id }], {
      calibrations: [calibration, other],
    })
    expect(issues.length).toBeGreaterThan(1)
    expect(issues.every(({ message }) => message.includes('CC-2/1'))).toBe(true)
  })
})
