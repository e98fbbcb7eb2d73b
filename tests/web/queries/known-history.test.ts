import { DuckDBInstance } from '@duckdb/node-api'
import { expect, test } from 'vitest'
import { columnsOf } from '../../../web/engine/columns.ts'
import type { Query } from '../../../web/engine/query.ts'
import { arrivalsAround } from '../../../web/panels/review/arrivals.ts'
import { knownHistory, lateArrivals } from '../../../web/queries/known-history.ts'
import { knownTraces } from '../../../web/views/time-history/history-from-site.ts'

const hourMs = 3_600_000

/** Readings by the hour: hours 0 to 5 at once, 6 to 9 in a file at hour 12, 10 and 11 at once again. Another series: one, 40 days late. */
async function ask({ sql, params }: Pick<Query, 'sql' | 'params'>) {
  const instance = await DuckDBInstance.create()
  const connection = await instance.connect()
  await connection.run(`create table raw_values as
    select 1::integer as series, make_timestamp_ms(h * ${hourMs}) as "at", h::double as value, 0::utinyint as quality,
      0::utinyint as flags, case when h between 6 and 9 then (12 - h) * 3600 end::integer as received_after_s
    from range(12) hours(h)
    union all select 2, make_timestamp_ms(0), 7, 0::utinyint, 0::utinyint, 40 * 86400`)
  const literal = (value: unknown): string =>
    Array.isArray(value) ? `[${value.map(literal).join(', ')}]` : String(value)
  const left = [...(params ?? [])]
  const answer = await connection.runAndReadAll(sql.replaceAll('?', () => literal(left.shift())))
  const names = answer.columnNames()
  const rows = answer.getRowsJson()
  const number = (value: unknown) =>
    value === null
      ? Number.NaN
      : typeof value === 'string' && /-.*:/.test(value)
        ? Date.parse(`${value}Z`)
        : Number(value)
  connection.closeSync()
  instance.closeSync()
  return columnsOf(
    rows.length,
    Object.fromEntries(names.map((name, at) => [name, Float64Array.from(rows, (row) => number(row[at]))])),
  )
}

const window = { fromEpochMs: 0, untilEpochMs: 12 * hourMs, intervalMinutes: 60, series: [1] }
const knownAt = async (hours: number, widthPixels = 800) =>
  knownTraces(
    await ask(knownHistory({ ...window, widthPixels, knownAtEpochMs: hours * hourMs })),
    widthPixels < 10 ? 'hour' : 'raw',
  )

test('at each instant only what had been received is there; the back-fill of noon is not there at 11', async () => {
  const at11 = await knownAt(11)
  expect([...(at11.traces[0]?.value ?? [])]).toEqual([0, 1, 2, 3, 4, 5, 10, 11])
  expect([...(at11.later[0]?.value ?? [])]).toEqual([6, 7, 8, 9])
  expect(at11.later[0]).toMatchObject({ firstReceivedEpochMs: 12 * hourMs, lastReceivedEpochMs: 12 * hourMs })
  const at12 = await knownAt(12)
  expect([at12.traces[0]?.value.length, at12.later]).toEqual([12, []])
  // What was not taken yet had not been received either.
  const at8 = await knownAt(8)
  expect([at8.traces[0]?.value.length, at8.later[0]?.value.length]).toEqual([6, 6])
})

test('a day holds what had come and what had not apart, so that neither is in the mean of the other', async () => {
  const query = knownHistory({
    ...window,
    ...{ intervalMinutes: 1, widthPixels: 1, knownAtEpochMs: 11 * hourMs, untilEpochMs: 24 * hourMs },
  })
  expect(query.resolution).toBe('day')
  const { traces, later } = knownTraces(await ask(query), 'day')
  expect([traces[0]?.value[0], traces[0]?.count[0], traces[0]?.high[0]]).toEqual([4.5, 8, 11])
  expect([later[0]?.value[0], later[0]?.count[0], later[0]?.low[0]]).toEqual([7.5, 4, 6])
  expect([traces[0]?.lastAtEpochMs?.[0], later[0]?.lastAtEpochMs?.[0]]).toEqual([11 * hourMs, 9 * hourMs])
})

test('late arrivals are listed with what they brought, and the clock finds those beside it', async () => {
  const columns = await ask(lateArrivals({ series: 1, fromEpochMs: 0, untilEpochMs: 12 * hourMs }))
  const noon = {
    receivedEpochMs: 12 * hourMs,
    weighedEpochMs: 12 * hourMs,
    count: 4,
    firstAtEpochMs: 6 * hourMs,
    lastAtEpochMs: 9 * hourMs,
  }
  expect(arrivalsAround(columns, 11 * hourMs)).toEqual({ all: [noon], before: null, next: noon })
  expect(arrivalsAround(columns, 12 * hourMs)).toMatchObject({ before: null, next: null })
  expect(arrivalsAround(columns, 13 * hourMs)).toMatchObject({ before: noon, next: null })
})

test('what came 40 days late has its instant of receipt, longer than whole milliseconds of 32 bits reach', async () => {
  const late = await ask(lateArrivals({ ...window, series: 2 }))
  expect([...late.number('received_ms')]).toEqual([40 * 24 * hourMs])
  const known = await ask(
    knownHistory({ ...window, series: [2], widthPixels: 800, knownAtEpochMs: 39 * 24 * hourMs }),
  )
  expect([...known.number('known')]).toEqual([0])
})
