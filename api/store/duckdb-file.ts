import { existsSync, mkdirSync, realpathSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api'
import { makeDatabase } from './make-database.ts'
import { migrate } from './schema.ts'
import { StoreInUse } from './store-in-use.ts'

export interface DuckdbFileOptions {
  /** Path of the data file; made, with its folder, when absent. */
  readonly file: string
  /** For example `4GB`. Absent: what DuckDB takes by itself, four fifths of the machine's memory. */
  readonly memoryLimit?: string
  /** Absent: one a core. */
  readonly threads?: number
}

/** The open data file: one instance a process, and everything that writes to it one after the other. */
export interface DuckdbFile {
  readonly path: string
  /** Name under which SQL on any connection finds the tables. */
  readonly catalog: string
  /** For queries only; never in a transaction. */
  readonly reader: DuckDBConnection
  connect(): Promise<DuckDBConnection>
  /**
   * Runs `task` in one transaction, alone among all writers of this file. What it returns is handed on only
   * after COMMIT has reached the disk; if it throws, nothing of it remains.
   */
  transact<T>(task: (connection: DuckDBConnection) => Promise<T>, on?: DuckDBConnection): Promise<T>
  close(): Promise<void>
}

// DuckDB locks the file against other processes, but lets one process open it twice and so damage it.
const openHere = new Set<string>()

/**
 * When the write-ahead log passes this, the commit that passed it also writes the tables and empties the log.
 * It bounds the log, what a start has to replay (well under a second) and the longest commit; a larger one
 * gained nothing in sustained intake and made the longest commit three times as long.
 */
const checkpointThreshold = '16MB'

export async function openDuckdbFile(options: DuckdbFileOptions): Promise<DuckdbFile> {
  const path = canonicalPath(options.file)
  if (openHere.has(path)) throw new StoreInUse(path, 'this very process')
  openHere.add(path)
  try {
    if (!existsSync(path)) await makeDatabase(path)
    return await openCanonical(path, options)
  } catch (cause) {
    openHere.delete(path)
    throw cause
  }
}

async function openCanonical(path: string, options: DuckdbFileOptions): Promise<DuckdbFile> {
  const instance = await createInstance(path, {
    checkpoint_threshold: checkpointThreshold,
    // Nothing is ever fetched from outside.
    autoinstall_known_extensions: 'false',
    autoload_known_extensions: 'false',
    ...(options.memoryLimit === undefined ? {} : { memory_limit: options.memoryLimit }),
    ...(options.threads === undefined ? {} : { threads: String(options.threads) }),
  })
  const writer = await instance.connect()
  const reader = await instance.connect()
  try {
    await migrate(writer, path)
  } catch (cause) {
    reader.closeSync()
    writer.closeSync()
    instance.closeSync()
    throw cause
  }
  const [row] = (await reader.runAndReadAll('SELECT current_database()')).getRows()
  let last: Promise<unknown> = Promise.resolve()
  const alone = <T>(task: () => Promise<T>): Promise<T> => {
    const turn = last.then(task)
    last = turn.catch(() => undefined)
    return turn
  }
  return {
    path,
    catalog: String(row?.[0]),
    reader,
    connect: () => instance.connect(),
    transact: (task, on = writer) => alone(() => inTransaction(on, task)),
    close: () =>
      alone(async () => {
        try {
          await writer.run('CHECKPOINT')
        } finally {
          reader.closeSync()
          writer.closeSync()
          instance.closeSync()
          openHere.delete(path)
        }
      }),
  }
}

async function inTransaction<T>(
  connection: DuckDBConnection,
  task: (connection: DuckDBConnection) => Promise<T>,
): Promise<T> {
  await connection.run('BEGIN TRANSACTION')
  try {
    const result = await task(connection)
    await connection.run('COMMIT')
    return result
  } catch (cause) {
    // A failed COMMIT has rolled back by itself; the first failure is the one to report.
    await connection.run('ROLLBACK').catch(() => undefined)
    throw cause
  }
}

async function createInstance(path: string, settings: Record<string, string>): Promise<DuckDBInstance> {
  try {
    return await DuckDBInstance.create(path, settings)
  } catch (cause) {
    const text = cause instanceof Error ? cause.message : String(cause)
    if (!/could not set lock/i.test(text))
      throw new Error(`The data file ${path} could not be opened. It was left as it is.`, { cause })
    const pid = /PID (\d+)/.exec(text)?.[1]
    throw new StoreInUse(path, pid === undefined ? 'another process' : `another process (PID ${pid})`, cause)
  }
}

function canonicalPath(file: string): string {
  const folder = dirname(file)
  mkdirSync(folder, { recursive: true })
  return join(realpathSync(folder), basename(file))
}
