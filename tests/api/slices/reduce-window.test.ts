import { DuckDBInstance } from '@duckdb/node-api'
import { expect, test } from 'vitest'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape } from '#domain/reduction/chain-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { Link } from '../../../api/slices/links.ts'
import { reduceWindow } from '../../../api/slices/reduce-window.ts'

const from = Date.UTC(2027, 2, 1)
const until = from + 24 * 3_600_000

const linkOf = (channel: number, steps: readonly CalibrationStep[], more: Partial<Link> = {}): Link => ({
  channel,
  series: channel,
  fromEpochMs: from,
  untilEpochMs: until,
  shape: chainShape(steps),
  steps,
  coefficients: chainCoefficients(steps),
  temperatureSeries: null,
  temperatureMaximumAgeMinutes: null,
  barometerSeries: null,
  barometerMaximumAgeMinutes: null,
  rangeLow: null,
  rangeHigh: null,
  decimals: 2,
  lateAfterMinutes: 60,
  ...more,
})

/** Barometer on channel 1; an unvented loop transmitter of 0 to 700 kPa on 2, 20 m above it, in confined ground. */
const links = [
  linkOf(1, [{ kind: 'unit', parameters: { from: 'kPa', to: 'kPa' } }]),
  linkOf(
    2,
    [
      { kind: 'current-span', parameters: { low: 0, high: 700, unit: 'kPa' } },
      {
        kind: 'barometric',
        parameters: { reference: 101, maximumAgeMinutes: 120, efficiency: 0.4, riseMetres: 20 },
      },
    ],
    { barometerSeries: 1, barometerMaximumAgeMinutes: 120 },
  ),
]

test('loop failures are told apart in what is published, with and without a barometer at hand', async () => {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  try {
    await connection.run(`create table readings as
      select channel, timestamp '2027-03-01' + to_minutes(minute) as "at", raw::DOUBLE as raw,
        timestamp '2027-03-01' + to_minutes(minute) as received_at
      from (values (1, 0, 102), (2, 0, 12), (2, 30, 3.5), (2, 60, 3.7), (2, 90, 21), (2, 600, 22), (2, 630, 12))
        t(channel, minute, raw)`)
    await reduceWindow(connection, 'readings', links, from, until)
    const reader = await connection.runAndReadAll(
      'select round(value, 2) as value, quality from reduced where series = 2 order by "at"',
    )
    // The barometer rose by 1 kPa, of which 0.4 is felt, and 0.998 of that 20 m higher up.
    expect(reader.getRowObjectsJS()).toEqual([
      { value: 349.6, quality: 0 },
      { value: null, quality: quality.sensorFault },
      { value: -13.52, quality: 0 },
      { value: null, quality: quality.sensorFault },
      { value: null, quality: quality.sensorFault + quality.barometerMissing },
      { value: null, quality: quality.barometerMissing },
    ])
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
})
