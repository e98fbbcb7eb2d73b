import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { DuckDBConnection } from '@duckdb/node-api'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { secondsToReceiptSql } from '#domain/receipt/known-by.ts'
import type { ClockSetting } from '#domain/reduction/logger-clock.ts'
import { putRight } from '#domain/what-if/put-right.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { ReadingWindow, Store } from '../../../api/store/store.ts'
import { intakeSite } from '../../support/intake-site.ts'

const model = intakeSite()
const site = model.facts.id
const hourMs = 3_600_000
const dayMs = 24 * hourMs
const begin = Date.UTC(2027, 5, 20)
const until = begin + 30 * dayMs
const [own, beside] = [1, 2]

let folder: string
let store: Store
let connection: DuckDBConnection

/** Invented readings every 20 minutes of two channels, some received after others that were stamped later. */
const readings = [own, beside].flatMap((channel) =>
  Array.from({ length: 72 * 30 }, (_, at) => ({
    channel,
    atEpochMs: begin + (at * hourMs) / 3,
    raw: at + channel / 10,
    receivedAfterSeconds: at % 7 === 0 ? 90_000 : 20,
  })),
)

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'clock-view-'))
  store = await openDuckdbStore({ file: join(folder, 'site.duckdb') })
  await store.putSite(model, { author: 'test', reason: 'test', atEpochMs: 0 })
  const numbers = await store.channelNumbers(site, [
    { logger: 'LG-1', name: '1' },
    { logger: 'LG-2', name: '1' },
  ])
  expect(numbers).toEqual([own, beside])
  const writer = await store.beginBatch({
    site,
    fileName: 'given.csv',
    sha256: 'given',
    bytes: 1,
    receivedAtEpochMs: until,
    from: 'test',
    layout: null,
    layoutVersion: null,
  })
  await writer.append({
    count: readings.length,
    channel: Int32Array.from(readings, ({ channel }) => channel),
    atMicros: BigInt64Array.from(readings, ({ atEpochMs }) => BigInt(atEpochMs) * 1000n),
    raw: Float64Array.from(readings, ({ raw }) => raw),
    receivedMicros: BigInt64Array.from(
      readings,
      (one) => BigInt(one.atEpochMs + one.receivedAfterSeconds * 1000) * 1000n,
    ),
  })
  await writer.commit({ absent: 0 })
  connection = await store.connect()
})
afterAll(async () => {
  connection.closeSync()
  await store.close()
  await rm(folder, { recursive: true, force: true })
})

async function exposed(window: Omit<ReadingWindow, 'site'>) {
  await store.exposeReadings(connection, 'shown', { site, ...window })
  const reader = await connection.runAndReadAll(
    `select channel, epoch_us("at")::double / 1000, raw, ${secondsToReceiptSql('received_at', '"at"')}::double, epoch_us(stamp)::double / 1000
     from shown order by channel, "at"`,
  )
  return reader.getRows().map((row) => row.map(Number))
}

/** What the sandbox makes of the same readings. */
function ofSandbox(settings: readonly ClockSetting[], from: number, end: number) {
  return [own, beside].flatMap((channel) => {
    const sent = readings.filter((one) => one.channel === channel)
    const columns = {
      atEpochMs: Float64Array.from(sent, ({ atEpochMs }) => atEpochMs),
      raw: Float64Array.from(sent, ({ raw }) => raw),
      receivedAfterSeconds: Float64Array.from(sent, ({ receivedAfterSeconds }) => receivedAfterSeconds),
    }
    const { atEpochMs, raw } = putRight(columns, channel === own ? settings : [])
    return [...atEpochMs].flatMap((at, row) =>
      at >= from && at < end ? [[channel, at, raw[row] as number]] : [],
    )
  })
}

const settings = fc
  .uniqueArray(
    fc.record({
      fromEpochMs: fc.integer({ min: -24, max: 31 * 24 }).map((hour) => begin + hour * hourMs),
      // Also whole steps of the readings, so that some come to stand where others do.
      addedSeconds: fc.oneof(
        fc.integer({ min: -90, max: 90 }).map((steps) => steps * 1200),
        fc.integer({ min: -100_000, max: 100_000 }),
      ),
      addedSecondsPerDay: fc.oneof(fc.constant(0), fc.double({ min: -3600, max: 3600, noNaN: true })),
    }),
    { minLength: 1, maxLength: 4, selector: ({ fromEpochMs }) => fromEpochMs },
  )
  .map((all) => all.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs))
const window = fc
  .tuple(fc.integer({ min: -3 * 24, max: 32 * 24 }), fc.integer({ min: 1, max: 400 }))
  .map(([hour, length]) => [begin + hour * hourMs, begin + (hour + length) * hourMs] as const)

test('readings of any clock and window stand in the store as the sandbox puts them', async () => {
  await fc.assert(
    fc.asyncProperty(settings, window, async (one, [from, end]) => {
      const clocks = [{ channels: [own], settings: one }]
      const rows = await exposed({ fromEpochMs: from, untilEpochMs: end, clocks })
      expect(rows.map((row) => row.slice(0, 3))).toEqual(ofSandbox(one, from, end))
      // Receipt is when it was, whatever instant the reading stands at.
      for (const [, at = 0, , received = 0, stamp = 0] of rows) {
        const sent = ((stamp - begin) * 3) / hourMs
        const receipt = stamp + (sent % 7 === 0 ? 90_000 : 20) * 1000
        expect(at + received * 1000 - receipt).toBeLessThan(1000)
        expect(at + received * 1000).toBeGreaterThanOrEqual(receipt - 1e-3)
      }
    }),
    { numRuns: 60 },
  )
}, 60_000)

test('without bounds every reading is there once; stamps are as sent where no clock is put right', async () => {
  const sent = await exposed({})
  expect(sent).toHaveLength(readings.length)
  expect(sent.every(([, at, , , stamp]) => at === stamp)).toBe(true)
  const clocks = [
    { channels: [own], settings: [{ fromEpochMs: begin, addedSeconds: 600, addedSecondsPerDay: 0 }] },
  ]
  const right = await exposed({ clocks })
  expect(right).toHaveLength(readings.length)
  expect(right.map(([channel, at = 0, , , stamp = 0]) => [channel, at - stamp])).toEqual(
    readings.map(({ channel }) => [channel, channel === own ? 600_000 : 0]),
  )
})

test('of two that come to stand at one instant the one received first holds, whatever the window', async () => {
  // The stamp of the eighth was received a day late; put back an hour it meets the fifth, and has to yield.
  const clocks = [
    {
      channels: [own],
      settings: [{ fromEpochMs: begin + 7 * (hourMs / 3), addedSeconds: -3600, addedSecondsPerDay: 0 }],
    },
  ]
  const met = begin + 4 * (hourMs / 3)
  for (const [from, end] of [
    [begin, until],
    [met, met + 1],
  ] as const) {
    const rows = (await exposed({ fromEpochMs: from, untilEpochMs: end, clocks })).filter(
      ([channel, at]) => channel === own && at === met,
    )
    expect(rows.map(([, , raw]) => raw)).toEqual([4.1])
  }
})
