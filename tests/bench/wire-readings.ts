/** Raw vibrating-wire readings to be reduced, as SQL that both engines understand, and their constants. */
export const sensors = 50
export const startEpochMs = Date.UTC(2027, 0, 1)
const intervalMs = 5 * 60_000

export interface Readings {
  readonly each: number
  readonly untilEpochMs: number
  /** Every sensor is calibrated anew half way. */
  readonly changeEpochMs: number
}

export const readingsOf = (each: number): Readings => ({
  each,
  untilEpochMs: startEpochMs + each * intervalMs,
  changeEpochMs: startEpochMs + (each / 2) * intervalMs,
})

export const thermistor = { a: 0.0014051, b: 0.0002369, c: 1.019e-7 }
export const air = { low: 80, high: 110 }
export const coefficients = (sensor: number, version: number) => ({
  c0: 698 + sensor + version,
  c1: -0.0826 - sensor / 1e5,
  c2: 4.1e-7,
  factor: 0.013 + version / 1000,
  temperature: 12.7,
  pressure: 101.12,
})

/** Periods every five minutes, thermistors and one barometer every hour. */
export function makeReadingsSql({ each }: Readings): string {
  const at = (from: string, ms: number) =>
    `make_timestamp(${startEpochMs * 1000} + ${from} * ${ms * 1000}::bigint)`
  const hours = Math.floor((each * intervalMs) / 3_600_000)
  return `create table reading as
    select channel::integer as channel, "at", raw, "at" + interval 5 second as received_at from (
      select s as channel, ${at('n', intervalMs)} as "at", 344 + s / 100 + sin(n / 900) as raw
        from range(${sensors}) a(s), range(${each}) b(n)
      union all select ${sensors} + s, ${at('n', 3_600_000)}, 5200 + 300 * sin(n / 700 + s)
        from range(${sensors}) a(s), range(${hours}) b(n)
      union all select ${2 * sensors}, ${at('n', 3_600_000)}, 3.5 + 0.1 * sin(n / 60) from range(${hours}) b(n))
    order by channel, "at"`
}

/** The arithmetic of their chains written by hand, with constants: series, "at", value. */
export function handWrittenSql({ changeEpochMs, untilEpochMs }: Readings): string {
  const constants = Array.from({ length: sensors }, (_, sensor) =>
    [0, 1].map((version) => {
      const { c0, c1, c2, factor, temperature, pressure } = coefficients(sensor, version)
      const [from, until] = version === 0 ? [startEpochMs, changeEpochMs] : [changeEpochMs, untilEpochMs]
      const numbers = [c0, c1, c2, factor, temperature, pressure].map((one) => `${one}::double`)
      return `(${sensor}, make_timestamp(${from * 1000}), make_timestamp(${until * 1000}), ${numbers.join(', ')})`
    }),
  ).flat()
  return `
  with calibration(series, from_at, until_at, c0, c1, c2, factor, t0, p0) as (values ${constants.join(', ')}),
  thermistor as (select channel - ${sensors} as series, "at",
    1 / (${thermistor.a} + ${thermistor.b} * ln(raw) + 1.019e-7 * ln(raw) * ln(raw) * ln(raw)) - 273.15 as t
    from reading where channel between ${sensors} and ${2 * sensors - 1}),
  barometer as (select "at", ${air.low} + raw / 5 * ${air.high - air.low} as p from reading where channel = ${2 * sensors}),
  air as (select i."at", b.p from (select distinct "at" from reading where channel < ${sensors}) i asof join barometer b on i."at" >= b."at"),
  wire as (select channel as series, "at", 1e6 / raw * (1e6 / raw) / 1000 as x from reading where channel < ${sensors})
  select w.series, w."at", (k.c2 * w.x + k.c1) * w.x + k.c0 + k.factor * (t.t - k.t0) - (a.p - k.p0) as value
  from wire w
  join calibration k on k.series = w.series and w."at" >= k.from_at and w."at" < k.until_at
  join air a on a."at" = w."at"
  asof join thermistor t on t.series = w.series and w."at" >= t."at"`
}

/** Values rolled up by hour and added up, so that two ways can be compared. */
export const rollUpSql = (from: string): string =>
  `select count(*)::double as hours, sum(mean) as total from (select series, date_trunc('hour', "at"), min(value), avg(value) as mean, max(value), count(*) from (${from}) group by all)`
