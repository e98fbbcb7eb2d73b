import { DuckDBInstance } from '@duckdb/node-api'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape } from '#domain/reduction/chain-sql.ts'
import type { Link } from '../../api/slices/links.ts'
import { reduceWindow } from '../../api/slices/reduce-window.ts'
import type { Measurement } from './measurement.ts'
import {
  air,
  coefficients,
  handWrittenSql,
  makeReadingsSql,
  readingsOf,
  rollUpSql,
  sensors,
  startEpochMs,
  thermistor,
} from './wire-readings.ts'

const readings = readingsOf(100_000)
const { untilEpochMs, changeEpochMs } = readings

/**
 * Reduction of five million raw periods as publishing does it (dated calibrations joined in, thermistor and barometer
 * as of each instant, roll-up by hour), against the same arithmetic written by hand as one query with constants.
 */
export async function measureReduction(): Promise<Measurement[]> {
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  await connection.run(makeReadingsSql(readings))
  const hour = async (from: string) =>
    (await connection.runAndReadAll(rollUpSql(from))).getRows()[0] as number[]
  const timed = async (work: () => Promise<number[]>) => {
    const begun = performance.now()
    const answer = await work()
    return { seconds: (performance.now() - begun) / 1000, answer }
  }
  const ours = () =>
    timed(async () => {
      await reduceWindow(connection, 'reading', links(), startEpochMs, untilEpochMs)
      return hour(`select series, "at", value from reduced where series < ${sensors}`)
    })
  const byHand = () => timed(() => hour(handWrittenSql(readings)))
  await ours()
  await byHand()
  const [mine, peer] = [await ours(), await byHand()]
  const [hours, sum] = mine.answer
  if (hours !== peer.answer[0] || Math.abs((sum ?? 0) / (peer.answer[1] ?? 1) - 1) > 1e-9)
    throw new Error(`both ways must give the same: ${mine.answer} and ${peer.answer}`)
  connection.closeSync()
  instance.closeSync()
  return [
    {
      name: 'reduction and hourly roll-up of 5 million vibrating-wire readings',
      ours: mine.seconds,
      unit: 's',
      peer: { name: 'the same arithmetic as one hand-written query with constants', value: peer.seconds },
      goal: 'ratio at most 1.5',
    },
  ]
}

function links(): readonly Link[] {
  const whole = { fromEpochMs: startEpochMs, untilEpochMs }
  const made: Link[] = []
  for (let sensor = 0; sensor < sensors; sensor++) {
    for (const version of [0, 1])
      made.push(
        link(
          sensor,
          version === 0
            ? { fromEpochMs: startEpochMs, untilEpochMs: changeEpochMs }
            : { fromEpochMs: changeEpochMs, untilEpochMs },
          wireSteps(sensor, version),
          { temperatureSeries: sensors + sensor, barometerSeries: 2 * sensors },
        ),
      )
    made.push(link(sensors + sensor, whole, [{ kind: 'steinhart-hart', parameters: thermistor }]))
  }
  const span = { lowVolts: 0, highVolts: 5, low: air.low, high: air.high, unit: 'kPa' }
  made.push(link(2 * sensors, whole, [{ kind: 'voltage-span', parameters: span }]))
  return made
}

function wireSteps(sensor: number, version: number): readonly CalibrationStep[] {
  const { c0, c1, c2, factor, temperature, pressure } = coefficients(sensor, version)
  return [
    { kind: 'period-to-frequency', parameters: {} },
    { kind: 'frequency-squared', parameters: {} },
    { kind: 'polynomial', parameters: { c0, c1, c2, unit: 'kPa' } },
    { kind: 'thermal', parameters: { factor, reference: temperature } },
    { kind: 'barometric', parameters: { reference: pressure, maximumAgeMinutes: 90 } },
  ]
}

const link = (
  series: number,
  span: Pick<Link, 'fromEpochMs' | 'untilEpochMs'>,
  steps: readonly CalibrationStep[],
  companions: Partial<Pick<Link, 'temperatureSeries' | 'barometerSeries'>> = {},
): Link => ({
  channel: series,
  series,
  ...span,
  shape: chainShape(steps),
  steps,
  coefficients: chainCoefficients(steps),
  temperatureSeries: companions.temperatureSeries ?? null,
  temperatureMaximumAgeMinutes: companions.temperatureSeries === undefined ? null : 90,
  barometerSeries: companions.barometerSeries ?? null,
  barometerMaximumAgeMinutes: companions.barometerSeries === undefined ? null : 90,
  rangeLow: null,
  rangeHigh: null,
  decimals: 3,
  lateAfterMinutes: 180,
})
