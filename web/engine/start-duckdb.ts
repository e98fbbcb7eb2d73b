import * as duckdb from '@duckdb/duckdb-wasm'
import workerUrl from '@duckdb/duckdb-wasm/dist/duckdb-browser-eh.worker.js?url'
import wasmUrl from '@duckdb/duckdb-wasm/dist/duckdb-eh.wasm?url'
import type { Table } from 'apache-arrow'
import { toColumns } from './columns.ts'
import type { Session } from './engine.ts'

/**
 * Starts DuckDB in a worker of its own. The single-threaded build is named by hand: the threaded one
 * lost results when tried. Range reads must be asked for, and nothing may be fetched as an extension.
 */
export async function startDuckdb(
  onFetched: (loaded: number, total: number) => void,
  onCrash: (cause: unknown) => void,
): Promise<Session> {
  const worker = new Worker(new URL(workerUrl, location.href))
  worker.addEventListener('error', (event) => onCrash(event.error ?? new Error(event.message)))
  const database = new duckdb.AsyncDuckDB(new duckdb.VoidLogger(), worker)
  await database.instantiate(new URL(wasmUrl, location.href).href, null, ({ bytesLoaded, bytesTotal }) =>
    onFetched(bytesLoaded, bytesTotal),
  )
  await database.open({
    filesystem: { forceFullHTTPReads: false, allowFullHTTPReads: false, reliableHeadRequests: true },
  })
  const connection = await database.connect()
  await connection.query('set autoload_known_extensions=false')
  return {
    run: async (sql) => toColumns((await connection.query(sql)) as unknown as Table),
    registerBytes: (name, bytes) => database.registerFileBuffer(name, bytes),
    registerUrl: (name, url) =>
      database.registerFileURL(name, new URL(url, location.href).href, duckdb.DuckDBDataProtocol.HTTP, false),
    forgetFile: async (name) => {
      await database.dropFile(name)
    },
    // Terminating is the only way to give memory back; a polite close would wait for a stuck query.
    close: () => database.terminate(),
  }
}
