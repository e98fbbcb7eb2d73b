import type { BatchWriter, ReadingBlock } from '../store/store.ts'

/** The block being filled: write `channel[used]` and `raw[used]`, then `stamp` the instants of what was written. */
export interface ReadingBlocks {
  channel: Int32Array
  raw: Float64Array
  used: number
  /** Whether `room` more readings fit. */
  fits(room: number): boolean
  /** Makes room for `room` more readings. */
  reserve(room: number): Promise<void>
  /** Gives the readings from index `from` to `used` their instant and receipt, both UTC microseconds. */
  stamp(from: number, atMicros: number, receivedMicros: number): void
  /** Hands over what is left and waits for all of it. */
  close(): Promise<void>
  /** Waits for the block that is under way, whatever becomes of it. */
  settle(): Promise<void>
  readonly count: number
}

const blockReadings = 1 << 16
const wordRange = 4_294_967_296

/**
 * Fills blocks of about 64 thousand readings for a batch writer. Every block has arrays of its own, so the writer may
 * keep them, and the next one is parsed while the writer is still busy with the last. `mostReadings` is how many a small
 * file can hold at most, so that it does not cost a whole block.
 */
export function createReadingBlocks(writer: BatchWriter, mostReadings = blockReadings): ReadingBlocks {
  let size = Math.max(64, Math.min(blockReadings, mostReadings))
  let at = new BigInt64Array(size)
  let received = new BigInt64Array(size)
  let atWords = new Int32Array(at.buffer)
  let receivedWords = new Int32Array(received.buffer)
  let underWay: Promise<void> = Promise.resolve()
  let count = 0

  const blocks: ReadingBlocks = {
    channel: new Int32Array(size),
    raw: new Float64Array(size),
    used: 0,
    fits: (room) => blocks.used + room <= size,
    async reserve(room) {
      if (blocks.used + room > size) await flush(Math.max(blockReadings, room))
    },
    stamp(from, atMicros, receivedMicros) {
      // Two 32-bit halves are several times quicker than making a BigInt a reading; Node runs on little-endian machines.
      const atHigh = Math.floor(atMicros / wordRange)
      const atLow = (atMicros - atHigh * wordRange) | 0
      const receivedHigh = Math.floor(receivedMicros / wordRange)
      const receivedLow = (receivedMicros - receivedHigh * wordRange) | 0
      for (let i = from; i < blocks.used; i++) {
        atWords[i * 2] = atLow
        atWords[i * 2 + 1] = atHigh
        receivedWords[i * 2] = receivedLow
        receivedWords[i * 2 + 1] = receivedHigh
      }
    },
    async close() {
      if (blocks.used > 0) await flush(0)
      await underWay
    },
    async settle() {
      await underWay.catch(() => undefined)
    },
    get count() {
      return count + blocks.used
    },
  }
  /** Hands the block over and opens a fresh one; waits until the block before has been taken. */
  async function flush(nextSize: number): Promise<void> {
    const block: ReadingBlock = {
      count: blocks.used,
      channel: blocks.channel,
      atMicros: at,
      raw: blocks.raw,
      receivedMicros: received,
    }
    count += blocks.used
    size = nextSize
    blocks.channel = new Int32Array(size)
    blocks.raw = new Float64Array(size)
    at = new BigInt64Array(size)
    received = new BigInt64Array(size)
    atWords = new Int32Array(at.buffer)
    receivedWords = new Int32Array(received.buffer)
    blocks.used = 0
    await underWay
    if (block.count === 0) return
    underWay = writer.append(block)
    // Its failure is met at the next flush, close or settle; until then it must not count as unhandled.
    underWay.catch(() => undefined)
  }
  return blocks
}
