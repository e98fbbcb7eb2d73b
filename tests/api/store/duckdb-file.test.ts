import { spawn } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { auditHeadFile } from '../../../api/store/audit-head.ts'
import { openDuckdbFile } from '../../../api/store/duckdb-file.ts'
import { openDuckdbStore } from '../../../api/store/duckdb-store.ts'
import { schemaVersion } from '../../../api/store/schema.ts'
import { StoreInUse } from '../../../api/store/store-in-use.ts'
import { startEpochMs, takeBatch } from '../../contract/reading-batches.ts'
import { smallSite } from '../../contract/small-site.ts'
import { fieldEntry, note } from '../../support/field-entries.ts'

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'duckdb-file-'))
  file = join(folder, 'data', 'stillground.duckdb')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

async function withDatabase(path: string, statements: readonly string[]): Promise<void> {
  const instance = await DuckDBInstance.create(path)
  const connection = await instance.connect()
  for (const sql of statements) await connection.run(sql)
  connection.closeSync()
  instance.closeSync()
}

/** Tables of the first version; whatever else there is came later. */
const firstTables = [
  ...['site', 'record', 'channel', 'series', 'batch', 'reading', 'conflict', 'quarantined', 'superseded'],
  ...['change', 'schema_version'],
]

async function tablesOf(path: string): Promise<readonly string[]> {
  const instance = await DuckDBInstance.create(path)
  const connection = await instance.connect()
  const reader = await connection.runAndReadAll('SELECT table_name FROM duckdb_tables() WHERE NOT internal')
  connection.closeSync()
  instance.closeSync()
  return reader.getRows().map(([name]) => String(name))
}

test('a file in use by another process is named, with its holder and what to do', async () => {
  await (await openDuckdbStore({ file })).close()
  const holder = spawn(
    process.execPath,
    [
      '-e',
      `import('@duckdb/node-api').then(async ({ DuckDBInstance }) => {
         globalThis.held = await DuckDBInstance.create(process.argv[1])
         console.log('held')
         setInterval(() => undefined, 60000)
       })`,
      file,
    ],
    { cwd: new URL('../../..', import.meta.url).pathname, stdio: ['ignore', 'pipe', 'inherit'] },
  )
  try {
    await new Promise((resolve) => holder.stdout.once('data', resolve))
    const refused = await openDuckdbStore({ file }).catch((error: unknown) => error)
    expect(refused).toBeInstanceOf(StoreInUse)
    expect((refused as StoreInUse).file).toBe(file)
    expect((refused as StoreInUse).message).toBe(
      `The data file ${file} is in use by another process (PID ${holder.pid}). Stop that one first, or start this one with another data folder.`,
    )
    expect((refused as StoreInUse).cause).toBeInstanceOf(Error)
  } finally {
    await new Promise((resolve) => {
      holder.once('close', resolve)
      holder.kill('SIGKILL')
    })
  }
  await (await openDuckdbStore({ file })).close()
})

test('one process cannot open the file twice, under whatever name', async () => {
  const store = await openDuckdbStore({ file })
  await expect(
    openDuckdbStore({ file: join(folder, 'data', '..', 'data', 'stillground.duckdb') }),
  ).rejects.toThrow('in use by this very process')
  await store.close()
  await (await openDuckdbStore({ file })).close()
})

test('a database that is not ours is refused and left alone', async () => {
  const other = join(folder, 'other.duckdb')
  await withDatabase(other, ['CREATE TABLE ledger (amount INTEGER)'])
  const before = readFileSync(other)
  await expect(openDuckdbStore({ file: other })).rejects.toThrow("not one of Stillground's")
  expect(readFileSync(other).equals(before)).toBe(true)
})

test('a file of a newer version is refused with what to do', async () => {
  await (await openDuckdbStore({ file })).close()
  await withDatabase(file, [`UPDATE schema_version SET version = ${schemaVersion + 1}`])
  await expect(openDuckdbStore({ file })).rejects.toThrow('Start the newer version')
})

test('a file that is no database is left as it is, with the cause', async () => {
  const text = join(folder, 'notes.duckdb')
  writeFileSync(text, 'not a database at all\n'.repeat(1000))
  const refused = (await openDuckdbStore({ file: text }).catch((error: unknown) => error)) as Error
  expect(refused.message).toContain('could not be opened')
  expect(refused.cause).toBeInstanceOf(Error)
  expect(readFileSync(text, 'utf8')).toBe('not a database at all\n'.repeat(1000))
})

test('what a start left half made is no hindrance and does not stay', async () => {
  mkdirSync(join(folder, 'data'))
  writeFileSync(`${file}.new`, 'half')
  await (await openDuckdbStore({ file })).close()
  expect(readdirSync(join(folder, 'data'))).toEqual(['stillground.duckdb', 'stillground.duckdb.audit-head'])
})

test('a transaction that throws leaves nothing and does not hold up the next', async () => {
  const open = await openDuckdbFile({ file })
  const insert = (number: number, fail: boolean) =>
    open.transact(async (connection) => {
      await connection.run(`INSERT INTO site VALUES (${number}, 'site-${number}')`)
      if (fail) throw new Error('on purpose')
      return number
    })
  const results = await Promise.allSettled([
    insert(1, false),
    insert(2, true),
    insert(3, false),
    insert(3, false),
  ])
  expect(results.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled', 'rejected'])
  const sites = await open.reader.runAndReadAll('SELECT number FROM site ORDER BY number')
  expect(sites.getRows()).toEqual([[1], [3]])
  await open.close()
})

test('the log stays bounded in a long run and is empty after close', async () => {
  const store = await openDuckdbStore({ file })
  await store.channelNumbers('small-quay', [{ logger: 'LG-01', name: '1' }])
  const log = `${realpathSync(file)}.wal`
  let largestBytes = 0
  for (let batch = 0; batch < 40; batch++) {
    await takeBatch(store, 'small-quay', [
      Array.from({ length: 20_000 }, (_, i) => ({
        channel: 1,
        atEpochMs: startEpochMs + (batch * 20_000 + i) * 1000,
        raw: Math.sin(i),
      })),
    ])
    if (existsSync(log)) largestBytes = Math.max(largestBytes, statSync(log).size)
  }
  // 40 such batches write about 37 MB of log.
  expect(largestBytes).toBeGreaterThan(1e6)
  expect(largestBytes).toBeLessThan(20e6)
  await store.close()
  expect(existsSync(log) ? statSync(log).size : 0).toBe(0)
})

test('a data file of the version before field entries opens with all that it held', async () => {
  const before = await openDuckdbStore({ file })
  await before.putSite(smallSite(), { author: 'A. Tester', reason: 'first load', atEpochMs: 0 })
  const channels = await before.channelNumbers('small-quay', [{ logger: 'LG-01', name: '1' }])
  await takeBatch(before, 'small-quay', [[{ channel: channels[0] ?? 0, atEpochMs: startEpochMs, raw: 1 }]])
  const [receipts, revision] = [await before.listBatches('small-quay'), await before.revision('small-quay')]
  await before.close()
  // Later versions added tables and, to those alone, a column.
  const later = (await tablesOf(file)).filter((name) => !firstTables.includes(name))
  await withDatabase(file, [
    ...later.map((name) => `DROP TABLE ${name}`),
    'UPDATE schema_version SET version = 1',
  ])
  rmSync(auditHeadFile(file))
  const store = await openDuckdbStore({ file })
  try {
    expect(await store.getSite('small-quay')).toEqual(smallSite())
    expect(await store.listBatches('small-quay')).toEqual(receipts)
    expect(await store.revision('small-quay')).toBe(revision)
    const entry = fieldEntry(1, note('the first'), { site: 'small-quay' })
    expect(await store.addFieldEntries('small-quay', [entry], startEpochMs, null)).toEqual(['accepted'])
  } finally {
    await store.close()
  }
})

test('a data file of the version before links had makers keeps the links that are open', async () => {
  const before = await openDuckdbStore({ file })
  const signature = { author: 'A. Tester', account: 'one', reason: '', atEpochMs: 0 }
  const link = { sha256: 'a'.repeat(64), site: '*', role: 'viewer', expiresAtEpochMs: startEpochMs } as const
  await before.addInvitation(link, signature)
  await before.close()
  await withDatabase(file, [
    'ALTER TABLE invitation RENAME TO later',
    `CREATE TABLE invitation (
      sha256 VARCHAR PRIMARY KEY, site VARCHAR NOT NULL, role VARCHAR NOT NULL,
      expires_at TIMESTAMP NOT NULL, used_at TIMESTAMP)`,
    'INSERT INTO invitation SELECT * EXCLUDE (maker) FROM later',
    'DROP TABLE later',
    'DROP TABLE password_link',
    `CREATE TABLE password_link (
      sha256 VARCHAR PRIMARY KEY, account VARCHAR NOT NULL, expires_at TIMESTAMP NOT NULL, used_at TIMESTAMP)`,
    // Tables that came later.
    'DROP TABLE frozen_set',
    'DROP TABLE report',
    'DROP TABLE correction_proposal',
    'DROP TABLE correction_decision',
    'UPDATE schema_version SET version = 9',
  ])
  for (let times = 0; times < 2; times++) {
    const store = await openDuckdbStore({ file })
    expect(await store.findInvitation(link.sha256)).toEqual({ ...link, usedAtEpochMs: null, maker: null })
    await store.close()
  }
})
