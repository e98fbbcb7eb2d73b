import type { BatchHead, ReadingBlock } from '../../api/store/store.ts'

/** What the writer that gets killed writes, and the judge expects: everything follows from the number of the file. */

export const killSite = 'small-quay'
export const channelCount = 50
/** Readings of the previous file that every fourth file offers again. */
const repeatedCount = 100
const keysAFile = 40_000
const startMicros = Date.UTC(2027, 1, 1) * 1000

/** New readings in file `k`: mostly some thousand, now and then twenty thousand. */
export const newReadings = (k: number) => (k % 7 === 3 ? 20_000 : 500 + ((k * 7919) % 4500))
export const repeatedReadings = (k: number) => (k > 0 && k % 4 === 0 ? repeatedCount : 0)
export const quarantinedReadings = (k: number) => (k % 5 === 0 ? 3 : 0)

const fileName = (k: number) => `file-${k}.csv`
export const fileNumber = (name: string) => Number(/^file-(\d+)\.csv$/.exec(name)?.[1])

export const headOf = (k: number): BatchHead => ({
  site: killSite,
  fileName: fileName(k),
  sha256: String(k).padStart(64, '0'),
  bytes: newReadings(k) * 20,
  receivedAtEpochMs: startMicros / 1000,
  from: 'writer',
  layout: null,
  layoutVersion: null,
})

/** Readings of file `k`; the raw value is the number of the file. Every third file runs backwards in time. */
export function blockOf(k: number): ReadingBlock {
  const added = newReadings(k)
  const count = added + repeatedReadings(k)
  const block = {
    count,
    channel: new Int32Array(count),
    atMicros: new BigInt64Array(count),
    raw: new Float64Array(count),
    receivedMicros: new BigInt64Array(count).fill(BigInt(startMicros)),
  }
  for (let i = 0; i < count; i++) {
    const file = i < added ? k : k - 1
    const within = i >= added ? i - added : k % 3 === 0 ? added - 1 - i : i
    block.channel[i] = (within % channelCount) + 1
    block.atMicros[i] = BigInt(startMicros + (file * keysAFile + within) * 1_000_000)
    block.raw[i] = file
  }
  return block
}
