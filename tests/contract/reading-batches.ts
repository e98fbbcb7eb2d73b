import type { Receipt } from '#contract/receipt.ts'
import type { BatchHead, ReadingBlock, ReadingWindow, Store } from '../../api/store/store.ts'

/** One reading as a test writes it: channel number, instant and receipt in epoch milliseconds, raw value. */
export interface TestReading {
  readonly channel: number
  readonly atEpochMs: number
  readonly raw: number
  readonly receivedEpochMs?: number
}

export const startEpochMs = Date.UTC(2027, 1, 1)

export function toBlock(readings: readonly TestReading[]): ReadingBlock {
  const micros = (epochMs: number) => BigInt(Math.round(epochMs * 1000))
  return {
    count: readings.length,
    channel: Int32Array.from(readings, ({ channel }) => channel),
    atMicros: BigInt64Array.from(readings, ({ atEpochMs }) => micros(atEpochMs)),
    raw: Float64Array.from(readings, ({ raw }) => raw),
    receivedMicros: BigInt64Array.from(readings, ({ atEpochMs, receivedEpochMs }) =>
      micros(receivedEpochMs ?? atEpochMs + 5000),
    ),
  }
}

export const batchHead = (site: string, fileName = 'LG-01.csv'): BatchHead => ({
  site,
  fileName,
  sha256: fileName.padEnd(64, '0'),
  bytes: 1234,
  receivedAtEpochMs: startEpochMs + 86_400_000,
  from: 'inbox',
  layout: 'wide-network',
  layoutVersion: 1,
})

/** Writes the blocks given as one batch. */
export async function takeBatch(
  store: Store,
  site: string,
  blocks: readonly (readonly TestReading[])[],
  fileName?: string,
): Promise<Receipt> {
  const writer = await store.beginBatch(batchHead(site, fileName))
  for (const block of blocks) await writer.append(toBlock(block))
  return writer.commit({ absent: 0 })
}

interface StoredReading {
  readonly channel: number
  readonly atEpochMs: number
  readonly raw: number
  readonly receivedEpochMs: number
  readonly batch: number
}

/** All stored readings of a window, by channel and instant. */
export async function readWindow(store: Store, window: ReadingWindow): Promise<StoredReading[]> {
  const connection = await store.connect()
  try {
    await store.exposeReadings(connection, 'window readings', window)
    const reader = await connection.runAndReadAll(
      `SELECT channel, epoch_us("at") / 1000, raw, epoch_us(received_at) / 1000, batch
       FROM "window readings" ORDER BY channel, "at"`,
    )
    return reader.getRows().map(([channel, atEpochMs, raw, receivedEpochMs, batch]) => ({
      channel: Number(channel),
      atEpochMs: Number(atEpochMs),
      raw: Number(raw),
      receivedEpochMs: Number(receivedEpochMs),
      batch: Number(batch),
    }))
  } finally {
    connection.closeSync()
  }
}
