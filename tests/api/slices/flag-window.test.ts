import { DuckDBInstance } from '@duckdb/node-api'
import { expect, test } from 'vitest'
import { checkedReadings } from '#domain/flags/checked-readings.ts'
import { bitsOf, type CheckLimits, findings } from '#domain/flags/flag-reading.ts'
import { noLimits } from '#domain/flags/limits.ts'
import { neighbourMinutes, reachOf } from '#domain/flags/reach.ts'
import type { CheckedSeries } from '../../../api/slices/checked-series.ts'
import { flagWindow, writeChecks } from '../../../api/slices/flag-window.ts'

const hour = 3_600_000
const start = Date.UTC(2027, 2, 1)
const limits: CheckLimits = {
  range: { ...noLimits, failAbove: 100 },
  'rate-of-change': { ...noLimits, suspectAbove: 40 },
  spike: { ...noLimits, suspectAbove: 5, failAbove: 50 },
  'stuck-value': { ...noLimits, suspectAbove: 2.5 },
  gap: { ...noLimits, suspectAbove: 90 },
  clock: { ...noLimits, suspectBelow: -120 },
  duplicate: { ...noLimits, suspectAbove: 20 },
  temperature: { ...noLimits, failAbove: 30 },
}
/** A spike, four equal readings, one without a value, one beyond the range, and a last one that jumps back. */
const values = [10, 10.4, 22, 10.8, 11, 11, 11, 11, null, 11.5, 140, 12, 12.2]
const readings = values.map((value, at) => ({
  atEpochMs: start + at * hour,
  value,
  receivedAfterSeconds: at === 1 ? -300 : 5,
}))
/** One reading of each companion, at the fifth hour, good for three hours. */
const beside = (value: number) => (at: number) =>
  at >= start + 5 * hour && at <= start + 8 * hour ? value : null

test('marks in a window what the functions mark, keeps every reading as it is, and writes no row without a mark', async () => {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  try {
    await connection.run(`create table reduced as select series, make_timestamp(at_us) as "at", value::double as value,
      received_after_s, 1 as decimals from (values ${[
        ...readings.map(
          (one) => `(1, ${one.atEpochMs * 1000}, ${one.value ?? 'null'}, ${one.receivedAfterSeconds})`,
        ),
        `(2, ${(start + 5 * hour) * 1000}, 40, 5)`,
        `(3, ${(start + 5 * hour) * 1000}, 35, 5)`,
      ].join(', ')}) t(series, at_us, value, received_after_s)`)
    const all = async () =>
      (await connection.runAndReadAll('select * from reduced order by series, "at"')).getRowsJS()
    const before = await all()
    // The first and the last reading lie outside the window: they are looked at, and not marked.
    const from = start + hour
    const until = start + 12 * hour
    const one = {
      series: 1,
      fromEpochMs: 0,
      untilEpochMs: Date.UTC(9999, 0),
      limits,
      reach: reachOf(limits, 60),
      neighbourMinutes: neighbourMinutes(60),
      wiredSinceEpochMs: start,
      duplicateSeries: 2,
      temperatureSeries: 3,
      companionMaximumAgeMinutes: 180,
    }
    await writeChecks(connection, [one])
    await flagWindow(connection, 'reduced', [one], from, until)
    const found = await connection.runAndReadAll(
      'select series, epoch_ms("at")::double as at, flags from flagged order by "at"',
    )
    const expected = checkedReadings(readings, {
      decimals: 1,
      neighbourMinutes: neighbourMinutes(60),
      dueSinceEpochMs: start,
      duplicateAt: beside(40),
      temperatureAt: beside(35),
    })
      .filter(({ atEpochMs }) => atEpochMs >= from && atEpochMs < until)
      .map((reading) => ({ series: 1, at: reading.atEpochMs, flags: bitsOf(findings(reading, limits)) }))
      .filter(({ flags }) => flags !== 0)
    expect(expected.length).toBeGreaterThan(5)
    expect(expected.length).toBeLessThan(11)
    expect(found.getRowObjectsJS()).toEqual(expected)
    expect(await all()).toEqual(before)
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
})

test('marks the same wherever a window is cut, from no more than its reach around it', async () => {
  const instance = await DuckDBInstance.create(':memory:', { threads: '1' })
  const connection = await instance.connect()
  const around: CheckLimits = {
    'rate-of-change': { ...noLimits, suspectAbove: 0.5 },
    spike: { ...noLimits, suspectAbove: 0.6 },
    'stuck-value': { ...noLimits, suspectAbove: 4, failAbove: 9 },
    gap: { ...noLimits, suspectAbove: 90, failAbove: 400 },
  }
  const reach = reachOf(around, 60)
  const one: CheckedSeries = {
    series: 1,
    fromEpochMs: 0,
    untilEpochMs: Date.UTC(9999, 0),
    limits: around,
    reach,
    neighbourMinutes: neighbourMinutes(60),
    wiredSinceEpochMs: start,
    duplicateSeries: null,
    temperatureSeries: null,
    companionMaximumAgeMinutes: 180,
  }
  try {
    // Hours of which some are missing, one or many in a row, and values that stay for hours.
    await connection.run(`create table whole as
      select 1 as series, make_timestamp(${start * 1000} + h * 3600000000::bigint) as "at",
        case when hash(h // 5) % 3 = 0 then 7.0 else (hash(h) % 20) / 10.0 end::double as value, 5 as received_after_s, 1 as decimals
      from range(0, 400) t(h) where hash(h * 7) % 6 <> 0 and hash(h // 11) % 5 <> 0`)
    await writeChecks(connection, [one])
    const marksIn = async (from: number, until: number) => {
      const [first, last] = [from - reach.beforeMinutes * 60_000, until + reach.afterMinutes * 60_000]
      await connection.run(`create or replace temp table cut as select * from whole
        where "at" >= make_timestamp(${first * 1000}) and "at" < make_timestamp(${last * 1000})`)
      await flagWindow(connection, 'cut', [one], from, until)
      const found = await connection.runAndReadAll(
        'select epoch_ms("at")::double, flags from flagged order by "at"',
      )
      return found.getRows().map(String)
    }
    const whole = await marksIn(start, start + 400 * hour)
    expect(whole.length).toBeGreaterThan(100)
    for (let cut = 1; cut < 400; cut += 11) {
      const at = start + cut * hour
      expect(
        [...(await marksIn(start, at)), ...(await marksIn(at, start + 400 * hour))],
        `cut at ${cut}`,
      ).toEqual(whole)
    }
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
})
