import { spawn } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type CheckpointJournal, journalPath, readJournal } from '../../api/store/checkpoint-journal.ts'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { StoreInUse } from '../../api/store/store-in-use.ts'
import { readWindow, startEpochMs, takeBatch } from '../contract/reading-batches.ts'

const site = 'small-quay'
const root = new URL('../..', import.meta.url).pathname

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'checkpoint-'))
  file = join(folder, 'stillground.duckdb')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

async function takeBatches(first: number, count: number, abortCheckpoint?: string): Promise<string[]> {
  const reported: string[] = []
  const store = await openDuckdbStore({ file, report: (line) => reported.push(line) })
  await store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
  for (let number = first; number < first + count; number++)
    await takeBatch(store, site, [batch(number)], `file-${number}.csv`)
  if (abortCheckpoint !== undefined) {
    const connection = await store.connect()
    await connection.run(`SET GLOBAL debug_checkpoint_abort = '${abortCheckpoint}'`)
    connection.closeSync()
  }
  await store.close()
  return reported
}

const batch = (number: number) =>
  Array.from({ length: 500 }, (_, i) => ({
    channel: 1,
    atEpochMs: startEpochMs + (number * 500 + i) * 1000,
    raw: number,
  }))

/** Ten batches, of which the checkpoint of the last five ends early, as at a kill. */
async function endEarly(point: string): Promise<CheckpointJournal> {
  await takeBatches(0, 5)
  const reported = await takeBatches(5, 5, point)
  expect(reported).toHaveLength(1)
  expect(reported[0]).toContain('nothing that was taken in is lost')
  const journal = readJournal(file)
  if (journal === null) throw new Error('no whole journal')
  return journal
}

async function expectTenBatches(): Promise<void> {
  const store = await openDuckdbStore({ file })
  const receipts = await store.listBatches(site)
  expect(receipts.map(({ fileName, accepted }) => [fileName, accepted])).toEqual(
    Array.from({ length: 10 }, (_, number) => [`file-${number}.csv`, 500]),
  )
  const readings = await readWindow(store, { site })
  expect(readings.map(({ atEpochMs, raw }) => [atEpochMs, raw])).toEqual(
    Array.from({ length: 10 }, (_, number) => batch(number))
      .flat()
      .map(({ atEpochMs, raw }) => [atEpochMs, raw]),
  )
  await store.close()
  expect(readdirSync(folder).sort()).toEqual(['stillground.duckdb', 'stillground.duckdb.audit-head'])
}

test('a checkpoint cut short in the middle of a block that the old header needs is undone', async () => {
  const { blocks } = await endEarly('after_free_list_write')
  const overwritten = readFileSync(file)
  const changed = blocks.filter(
    ({ position, bytes }) => !bytes.equals(overwritten.subarray(position, position + bytes.length)),
  )
  expect(changed.length).toBeGreaterThan(0)
  for (const { position, bytes } of changed) {
    // Cut where the last change was still to be written: what lies before it, and the checksum, are new.
    let from = bytes.length - 1
    while (bytes[from] === overwritten[position + from]) from--
    bytes.copy(overwritten, position + from, from)
  }
  writeFileSync(file, overwritten)
  const journal = readFileSync(journalPath(file))

  // Without what was kept such a file does not open: the test can fail.
  rmSync(journalPath(file))
  await expect(openDuckdbStore({ file })).rejects.toMatchObject({
    message: `The data file ${file} could not be opened. It was left as it is.`,
    cause: { message: expect.stringContaining('does not match stored checksum') },
  })
  writeFileSync(journalPath(file), journal)
  await expectTenBatches()
  await expectTenBatches()
})

test('a checkpoint that had written all blocks and not its header is undone', async () => {
  await endEarly('after_free_list_write')
  await expectTenBatches()
})

test('a checkpoint that was complete is left as it is, though its log and its journal were still there', async () => {
  const { blocks, headers } = await endEarly('before_truncate')
  expect(readFileSync(file).subarray(0, headers.length).equals(headers)).toBe(false)
  expect(blocks.length).toBeGreaterThan(0)
  await expectTenBatches()
})

test('a journal that is not whole, or half written beside, is passed over: its checkpoint had not begun', async () => {
  await takeBatches(0, 10)
  const before = readFileSync(file)
  for (const [at, lengthBytes] of [0, 20, 12_000, 100_000].entries()) {
    writeFileSync(journalPath(file), Buffer.alloc(lengthBytes, at))
    writeFileSync(`${journalPath(file)}.new`, 'half')
    await expectTenBatches()
  }
  expect(readFileSync(file).equals(before)).toBe(true)

  rmSync(file)
  await endEarly('after_free_list_write')
  truncateSync(journalPath(file), readFileSync(journalPath(file)).length - 1)
  expect(readJournal(file)).toBeNull()
  // Whole blocks were written, so nothing is missing here even so.
  await expectTenBatches()
})

test('what another process has open is never put back', async () => {
  await endEarly('after_free_list_write')
  const before = readFileSync(file)
  const holder = spawn(
    process.execPath,
    [
      '-e',
      `import('@duckdb/node-api').then(async ({ DuckDBInstance }) => {
         globalThis.held = await DuckDBInstance.create(process.argv[1], { checkpoint_threshold: '1TB' })
         console.log('held')
         setInterval(() => undefined, 60000)
       })`,
      file,
    ],
    { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] },
  )
  try {
    await new Promise((resolve) => holder.stdout.once('data', resolve))
    const refused = await openDuckdbStore({ file }).catch((error: unknown) => error)
    expect(refused).toBeInstanceOf(StoreInUse)
    expect((refused as StoreInUse).message).toContain(`another process (PID ${holder.pid})`)
    expect(readFileSync(file).equals(before)).toBe(true)
  } finally {
    await new Promise((resolve) => {
      holder.once('close', resolve)
      holder.kill('SIGKILL')
    })
  }
  await expectTenBatches()
})

test('where the lock cannot be made the start says so and changes nothing', async () => {
  await endEarly('after_free_list_write')
  const before = readFileSync(file)
  writeFileSync(`${file}.restoring`, 'no database\n'.repeat(1000))
  await expect(openDuckdbStore({ file })).rejects.toThrow('Nothing that was taken in is lost')
  expect(readFileSync(file).equals(before)).toBe(true)
  rmSync(`${file}.restoring`)
  await expectTenBatches()
})

test('reading the blocks does not take the lock away from the open file', async () => {
  const store = await openDuckdbStore({ file, logLimitBytes: 0 })
  await store.channelNumbers(site, [{ logger: 'LG-01', name: '1' }])
  for (let number = 0; number < 3; number++) await takeBatch(store, site, [batch(number)], `${number}.csv`)
  const said = await new Promise<string>((resolve) => {
    const other = spawn(
      process.execPath,
      [
        '-e',
        `import('@duckdb/node-api').then(({ DuckDBInstance }) => DuckDBInstance.create(process.argv[1]))
           .then(() => console.log('opened'), (cause) => console.log(cause.message))`,
        file,
      ],
      { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] },
    )
    other.stdout.once('data', (text) => resolve(String(text)))
  })
  expect(said).toContain('Could not set lock')
  await store.close()
})
