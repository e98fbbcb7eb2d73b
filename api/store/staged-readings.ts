import { DOUBLE, type DuckDBConnection, DuckDBDataChunk, INTEGER, TIMESTAMP } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import { ChannelSpans } from './channel-spans.ts'
import type { ReadingBlock } from './store.ts'

/** Rows of a DuckDB vector; an appender takes readings in chunks of at most so many. */
const chunkRows = 2048
const stageTypes = [INTEGER, TIMESTAMP, DOUBLE, TIMESTAMP]

/** Readings of one batch, set aside in a temporary table of its own connection until the commit. */
export interface StagedReadings {
  readonly spans: ChannelSpans
  append(block: ReadingBlock, highestChannel: number): Promise<void>
}

export async function openStage(connection: DuckDBConnection): Promise<StagedReadings> {
  await connection.run(
    'CREATE TEMP TABLE stage (channel INTEGER, "at" TIMESTAMP, raw DOUBLE, received_at TIMESTAMP)',
  )
  const spans = new ChannelSpans()
  return {
    spans,
    async append(block, highestChannel) {
      const { count } = block
      for (const column of [block.channel, block.atMicros, block.raw, block.receivedMicros])
        assert(column.length >= count, `a block of ${count} readings has a column of ${column.length}`)
      for (let i = 0; i < count; i++)
        assert(Number.isFinite(block.raw[i]), `reading ${i} of a block is ${block.raw[i]}`)
      spans.add(block, highestChannel)
      const appender = await connection.createAppender('stage', 'main', 'temp')
      for (let from = 0; from < count; from += chunkRows)
        appender.appendDataChunk(toChunk(block, from, Math.min(from + chunkRows, count)))
      appender.closeSync()
    },
  }
}

function toChunk(block: ReadingBlock, from: number, until: number): DuckDBDataChunk {
  const chunk = DuckDBDataChunk.create(stageTypes, until - from)
  fillColumn(chunk, 0, block.channel.subarray(from, until))
  fillColumn(chunk, 1, block.atMicros.subarray(from, until))
  fillColumn(chunk, 2, block.raw.subarray(from, until))
  fillColumn(chunk, 3, block.receivedMicros.subarray(from, until))
  return chunk
}

/**
 * Copies a typed array into a vector as a block. `items` is private in the types of @duckdb/node-api 1.5.6
 * but is the vector's own memory; the public way, item by item, took five times as long.
 */
function fillColumn(
  chunk: DuckDBDataChunk,
  column: number,
  source: Int32Array | BigInt64Array | Float64Array,
): void {
  const vector = chunk.getColumnVector(column) as unknown as { items?: unknown; flush(): void }
  const { items } = vector
  assert(
    items instanceof Object.getPrototypeOf(source).constructor &&
      (items as typeof source).length === source.length,
    `column ${column} of a chunk does not take ${source.constructor.name}`,
  )
  ;(items as { set(from: typeof source): void }).set(source)
  vector.flush()
}
