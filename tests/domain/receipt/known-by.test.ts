import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  earliestReceiptMsSql,
  isKnownBy,
  knownBySql,
  latestReceiptMs,
  receiptKeptToMs,
  secondsToReceiptSql,
} from '#domain/receipt/known-by.ts'

let instance: DuckDBInstance
const sql = async (text: string): Promise<unknown[]> => {
  const connection = await instance.connect()
  const answer = await connection.runAndReadAll(text)
  connection.closeSync()
  return answer.getRowsJson().map(([first]) => first)
}
beforeAll(async () => {
  instance = await DuckDBInstance.create()
})
afterAll(() => instance.closeSync())

test('what was received at the very instant was known by it, as function and as SQL', async () => {
  const receipts = [999, 1000, 1001]
  expect(receipts.map((received) => isKnownBy(received, 1000))).toEqual([true, true, false])
  const told = await sql(`select ${knownBySql('r', '1000')} from (values (999), (1000), (1001)) of(r)`)
  expect(told).toEqual([true, true, false])
})

test('whole seconds to receipt never make a reading known before it came, and by a whole second tell the same', async () => {
  const at = Date.UTC(2027, 5, 1, 12) * 1000
  const after = [-60_000_000, -4_600_000, 0, 1, 999_999, 1_000_000, 1_000_001, 900_000_001, 3_600_400_000]
  const seconds = await sql(
    `select ${secondsToReceiptSql('r', 'a')} from (
       select make_timestamp(${at}) as a, make_timestamp(${at} + d) as r, row_number() over () as n
       from unnest([${after.join(', ')}]) one(d)) order by n`,
  )
  expect(seconds).toEqual([-60, -4, 0, 1, 1, 1, 2, 901, 3601])
  for (const [place, micros] of after.entries())
    for (let instant = -61; instant <= 3700; instant++)
      expect(isKnownBy(Number(seconds[place]), instant)).toBe(isKnownBy(micros, instant * 1e6))
})

test('of a receipt that is not kept the earliest and the latest that it can have been are told', async () => {
  const rows = `(select make_timestamp_ms(5000) as "at", unnest([null, 0, 901]) as received_after_s)`
  expect((await sql(`select ${earliestReceiptMsSql} from ${rows}`)).map(Number)).toEqual([
    5000, 5000, 906_000,
  ])
  expect([null, Number.NaN, 901].map((after) => latestReceiptMs(5000, after))).toEqual([
    5000 + receiptKeptToMs,
    5000 + receiptKeptToMs,
    906_000,
  ])
})
