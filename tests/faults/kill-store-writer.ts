import { writeSync } from 'node:fs'
import { createInterface } from 'node:readline'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { blockOf, channelCount, headOf, killSite, quarantinedReadings } from './kill-store-batches.ts'

/**
 * The process that is killed. Waits for a line `<data file> <first file number> <files before closing>`, then
 * writes file after file, saying `taken <k>` once the store has acknowledged it, and `layout <version>` likewise;
 * after so many files (0: never) it closes the store, saying `closing` before and `closed` after. Never ends by itself.
 */
const [line] = await new Promise<string[]>((resolve) =>
  createInterface({ input: process.stdin }).once('line', (text) => resolve([text])),
)
const [file, first, filesBeforeClosing] = JSON.parse(line as string) as [string, number, number]
// Written straight to the pipe: what was said before the kill is not lost with this process.
const say = (text: string) => writeSync(1, `${text}\n`)

say('opening')
// A short log, so that kills also fall into checkpoints while writing.
const store = await openDuckdbStore({ file, logLimitBytes: 1e6 })
await store.channelNumbers(
  killSite,
  Array.from({ length: channelCount }, (_, i) => ({ logger: 'LG-01', name: `${i + 1}` })),
)
say('writing')
for (let k = first; filesBeforeClosing === 0 || k < first + filesBeforeClosing; k++) {
  const writer = await store.beginBatch(headOf(k))
  const block = blockOf(k)
  const half = block.count >> 1
  await writer.append({ ...block, count: half })
  await writer.append({
    count: block.count - half,
    channel: block.channel.subarray(half),
    atMicros: block.atMicros.subarray(half),
    raw: block.raw.subarray(half),
    receivedMicros: block.receivedMicros.subarray(half),
  })
  const set = quarantinedReadings(k)
  await writer.quarantine(
    Array.from({ length: set }, (_, i) => ({
      line: i + 2,
      column: null,
      code: 'number-expected' as const,
      message: 'A number was expected.',
      value: 'x',
      readings: 1,
    })),
  )
  await writer.commit({ absent: 0 })
  say(`taken ${k}`)
  if (k % 3 === 0) {
    const version = ((await store.listLayouts(killSite))[0]?.version ?? 0) + 1
    await store.putLayout(killSite, layout(version), {
      author: 'writer',
      reason: 'again',
      atEpochMs: headOf(k).receivedAtEpochMs,
    })
    say(`layout ${version}`)
  }
}
say('closing')
await store.close()
say('closed')
setInterval(() => undefined, 60_000)

function layout(version: number) {
  return {
    id: 'long',
    version,
    title: 'long file',
    encoding: 'utf-8' as const,
    delimiter: ',' as const,
    decimalMark: '.' as const,
    headerRows: 1,
    namesRow: 1,
    time: { columns: ['time'], pattern: 'iso', zone: 'UTC' },
    received: null,
    absent: [],
    faultCodes: [],
    channels: {
      shape: 'long' as const,
      loggerColumn: 'logger',
      loggerName: null,
      channelColumn: 'channel',
      valueColumn: 'value',
    },
    fileNamePattern: null,
  }
}
