import { createRequire } from 'node:module'
import { ConsoleLogger, createDuckDB, LogLevel, NODE_RUNTIME } from '@duckdb/duckdb-wasm/blocking'

/** The browser's DuckDB (an older one than the server's), run in Node, without any extension. */
export async function openBrowserRows() {
  const mainModule = createRequire(import.meta.url).resolve('@duckdb/duckdb-wasm/dist/duckdb-eh.wasm')
  const bundle = { mainModule, mainWorker: '' }
  const database = await createDuckDB(
    { mvp: bundle, eh: bundle },
    new ConsoleLogger(LogLevel.WARNING),
    NODE_RUNTIME,
  )
  await database.instantiate()
  const connection = database.connect()
  connection.query('set autoload_known_extensions=false')
  return {
    version: database.getVersion(),
    rows: (sql: string): Record<string, number | null>[] =>
      connection
        .query(sql)
        .toArray()
        .map((row) => ({ ...row.toJSON() })),
    close: () => connection.close(),
  }
}
