import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { chainCoefficients, chainShape } from '#domain/reduction/chain-sql.ts'
import type { Link } from '../../api/slices/links.ts'
import { reduceWindow } from '../../api/slices/reduce-window.ts'
import type { Measurement } from './measurement.ts'

const sensors = 50
const readingsEach = 100_000
const startEpochMs = Date.UTC(2027, 0, 1)
const intervalMs = 5 * 60_000
const untilEpochMs = startEpochMs + readingsEach * intervalMs
/** Every sensor is calibrated anew half way. */
const changeEpochMs = startEpochMs + (readingsEach / 2) * intervalMs

const thermistor = { a: 0.0014051, b: 0.0002369, c: 1.019e-7 }
const air = { low: 80, high: 110 }
const coefficients = (sensor: number, version: number) => ({
  c0: 698 + sensor + version,
  c1: -0.0826 - sensor / 1e5,
  c2: 4.1e-7,
  factor: 0.013 + version / 1000,
  temperature: 12.7,
  pressure: 101.12,
})

/**
 * Reduction of five million raw periods as publishing does it (dated calibrations joined in, thermistor and barometer
 * as of each instant, roll-up by hour), against the same arithmetic written by hand as one query with constants.
 */
export async function measureReduction(): Promise<Measurement[]> {
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  await makeReadings(connection)
  const hour = async (from: string) =>
    (
      await connection.runAndReadAll(
        `select count(*)::double, sum(mean) from (select series, date_trunc('hour', "at"), min(value), avg(value) as mean, max(value), count(*) from (${from}) group by all)`,
      )
    ).getRows()[0] as number[]

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
  const byHand = () => timed(() => hour(handWritten))
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

/** Periods every five minutes, thermistors and one barometer every hour. */
async function makeReadings(connection: DuckDBConnection): Promise<void> {
  const at = (from: string, ms: number) =>
    `make_timestamp(${startEpochMs * 1000} + ${from} * ${ms * 1000}::bigint)`
  const hours = (readingsEach * intervalMs) / 3_600_000
  await connection.run(`create table reading as
    select channel::integer as channel, "at", raw, "at" + interval 5 second as received_at from (
      select s as channel, ${at('n', intervalMs)} as "at", 344 + s / 100 + sin(n / 900) as raw
        from range(${sensors}) a(s), range(${readingsEach}) b(n)
      union all select ${sensors} + s, ${at('n', 3_600_000)}, 5200 + 300 * sin(n / 700 + s)
        from range(${sensors}) a(s), range(${Math.floor(hours)}) b(n)
      union all select ${2 * sensors}, ${at('n', 3_600_000)}, 3.5 + 0.1 * sin(n / 60) from range(${Math.floor(hours)}) b(n))
    order by channel, "at"`)
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

const constants = Array.from({ length: sensors }, (_, sensor) =>
  [0, 1].map((version) => {
    const { c0, c1, c2, factor, temperature, pressure } = coefficients(sensor, version)
    const [from, until] = version === 0 ? [startEpochMs, changeEpochMs] : [changeEpochMs, untilEpochMs]
    return `(${sensor}, make_timestamp(${from * 1000}), make_timestamp(${until * 1000}), ${[c0, c1, c2, factor, temperature, pressure].map((one) => `${one}::double`).join(', ')})`
  }),
)
  .flat()
  .join(', ')

const handWritten = `
  with calibration(series, from_at, until_at, c0, c1, c2, factor, t0, p0) as (values ${constants}),
  thermistor as (select channel - ${sensors} as series, "at",
    1 / (0.0014051 + 0.0002369 * ln(raw) + 1.019e-7 * ln(raw) * ln(raw) * ln(raw)) - 273.15 as t
    from reading where channel between ${sensors} and ${2 * sensors - 1}),
  barometer as (select "at", ${air.low} + raw / 5 * ${air.high - air.low} as p from reading where channel = ${2 * sensors}),
  air as (select i."at", b.p from (select distinct "at" from reading where channel < ${sensors}) i asof join barometer b on i."at" >= b."at"),
  wire as (select channel as series, "at", 1e6 / raw * (1e6 / raw) / 1000 as x from reading where channel < ${sensors})
  select w.series, w."at", (k.c2 * w.x + k.c1) * w.x + k.c0 + k.factor * (t.t - k.t0) - (a.p - k.p0) as value
  from wire w
  join calibration k on k.series = w.series and w."at" >= k.from_at and w."at" < k.until_at
  join air a on a."at" = w."at"
  asof join thermistor t on t.series = w.series and w."at" >= t."at"`
