import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import type { Store } from '../../../api/store/store.ts'
import { startEpochMs, type TestReading, takeBatch } from '../../contract/reading-batches.ts'

const site = 'small-quay'
let folder: string
let store: Store
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'add-readings-'))
  store = await openDuckdbStore({ file: join(folder, 'stillground.duckdb') })
  await store.channelNumbers(
    site,
    [1, 2, 3].map((number) => ({ logger: 'LG-01', name: `${number}` })),
  )
})
afterEach(async () => {
  await store.close()
  rmSync(folder, { recursive: true, force: true })
})

const reading = (channel: number, minute: number): TestReading => ({
  channel,
  atEpochMs: startEpochMs + minute * 60_000,
  raw: channel + minute / 1000,
})

/** Channel and minute of the stored readings as they lie in the table. */
async function asStored(): Promise<string[]> {
  const connection = await store.connect()
  const reader = await connection.runAndReadAll(
    `SELECT channel || '@' || (epoch_ms("at") - ${startEpochMs}) // 60000 FROM main.reading ORDER BY rowid`,
  )
  connection.closeSync()
  return reader.getRows().map(([text]) => String(text))
}

const names = (readings: readonly TestReading[]) =>
  readings.map(({ channel, atEpochMs }) => `${channel}@${(atEpochMs - startEpochMs) / 60_000}`)

const minutes = Array.from({ length: 200 }, (_, minute) => minute)

test('a file by channel keeps its order, which compresses best', async () => {
  const byChannel = [1, 2, 3].flatMap((channel) => minutes.map((minute) => reading(channel, minute)))
  await takeBatch(store, site, [byChannel])
  expect(await asStored()).toEqual(names(byChannel))
})

test('a file by time keeps its order', async () => {
  const byTime = minutes.flatMap((minute) => [3, 1, 2].map((channel) => reading(channel, minute)))
  await takeBatch(store, site, [byTime])
  expect(await asStored()).toEqual(names(byTime))
})

test('a file in neither order is stored by time, so that a window can skip it', async () => {
  const shuffled = minutes.map((minute) => reading((minute % 3) + 1, (minute * 77) % 200))
  // Channels 1 to 3 come and go, and the instants jump, but none repeats.
  await takeBatch(store, site, [shuffled])
  const sorted = [...shuffled].sort((a, b) => a.atEpochMs - b.atEpochMs || a.channel - b.channel)
  expect(await asStored()).toEqual(names(sorted))
})
