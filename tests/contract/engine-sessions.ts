import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api'
import type { Table } from 'apache-arrow'
import { type Columns, columnsOf, toColumns } from '../../web/engine/columns.ts'
import type { Session } from '../../web/engine/engine.ts'

/** The server's DuckDB as an engine session. `file:` paths stand for URLs. */
export async function startNativeSession(): Promise<Session> {
  const folder = await mkdtemp(join(tmpdir(), 'engine-'))
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  const paths = new Map<string, string>()
  return {
    run: (sql) => {
      // The browser finds registered names in its own file system; here they are files in a folder.
      const located = sql.replace(/attach '([^']+)'/, (all, name) =>
        paths.has(name) ? `attach '${paths.get(name)}'` : all,
      )
      return runNative(connection, located)
    },
    registerBytes: async (name, bytes) => {
      const path = join(folder, name)
      await writeFile(path, bytes)
      paths.set(name, path)
    },
    registerUrl: async (name, url) => {
      paths.set(name, new URL(url).pathname)
    },
    forgetFile: async (name) => {
      paths.delete(name)
    },
    close: async () => {
      connection.closeSync()
      instance.closeSync()
      await rm(folder, { recursive: true })
    },
  }
}

async function runNative(connection: DuckDBConnection, sql: string): Promise<Columns> {
  const reader = await connection.runAndReadAll(sql)
  const numbers: Record<string, Float64Array> = {}
  const texts: Record<string, (string | null)[]> = {}
  const columns = reader.getColumnsJS()
  reader.columnNames().forEach((name, place) => {
    const values = columns[place] ?? []
    if (values.some((value) => typeof value === 'string')) texts[name] = values as (string | null)[]
    else
      numbers[name] = Float64Array.from(values, (value) => {
        if (value === null) return Number.NaN
        return value instanceof Date ? value.getTime() : Number(value)
      })
  })
  return columnsOf(reader.currentRowCount, numbers, texts)
}

/** The browser's own DuckDB build, run in Node: an older core without extensions. */
export async function startBrowserSession(): Promise<Session> {
  const require = createRequire(import.meta.url)
  const blocking = require('@duckdb/duckdb-wasm/blocking')
  const folder = dirname(require.resolve('@duckdb/duckdb-wasm/dist/duckdb-eh.wasm'))
  const module = (name: string) => ({ mainModule: join(folder, `duckdb-${name}.wasm`), mainWorker: '' })
  const database = await blocking.createDuckDB(
    { mvp: module('mvp'), eh: module('eh') },
    new blocking.VoidLogger(),
    blocking.NODE_RUNTIME,
  )
  await database.instantiate(() => undefined)
  database.open({})
  const connection = database.connect()
  connection.query('set autoload_known_extensions=false')
  return {
    run: async (sql) => toColumns(connection.query(sql) as Table),
    registerBytes: async (name, bytes) => database.registerFileBuffer(name, bytes),
    registerUrl: async (name, url) => {
      const { readFile } = await import('node:fs/promises')
      database.registerFileBuffer(name, new Uint8Array(await readFile(new URL(url).pathname)))
    },
    forgetFile: async (name) => database.dropFile(name),
    close: async () => connection.close(),
  }
}
