import { existsSync, mkdirSync, realpathSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api'
import { type AuditLog, openAuditLog } from './audit-log.ts'
import { type Checkpoints, openCheckpoints } from './checkpoint.ts'
import { makeDatabase } from './make-database.ts'
import { isBeingRestored, restoreAndOpen } from './restore-after-kill.ts'
import { migrate } from './schema.ts'
import { lockHolder, StoreInUse } from './store-in-use.ts'

export interface DuckdbFileOptions {
  /** Path of the data file; made, with its folder, when absent. */
  readonly file: string
  /** For example `4GB`. Absent: what DuckDB takes by itself, four fifths of the machine's memory. */
  readonly memoryLimit?: string
  /** Absent: one a core. */
  readonly threads?: number
  /** The log is folded into the tables when it passes so many bytes; absent: 16 MB. */
  readonly logLimitBytes?: number
  /** Told of what hinders writing the tables, such as a full disk. Absent: the console's errors. */
  readonly report?: (line: string) => void
  /** Time of entries of the audit record that bring none of their own. Absent: the machine's clock. */
  readonly now?: () => number
}

/** The open data file: one instance a process, and everything that writes to it one after the other. */
export interface DuckdbFile {
  readonly path: string
  /** Name under which SQL on any connection finds the tables. */
  readonly catalog: string
  /** For queries only; never in a transaction. */
  readonly reader: DuckDBConnection
  /** The audit record: whoever changes a record or a state in a transaction appends to it in that transaction. */
  readonly audit: AuditLog
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

export async function openDuckdbFile(options: DuckdbFileOptions): Promise<DuckdbFile> {
  const path = canonicalPath(options.file)
  if (openHere.has(path)) throw new StoreInUse(path, 'this very process')
  openHere.add(path)
  try {
    if (!existsSync(path)) await makeDatabase(path)
    const open = () => openCanonical(path, options)
    return isBeingRestored(path) ? await restoreAndOpen(path, open) : await open()
  } catch (cause) {
    openHere.delete(path)
    throw cause
  }
}

async function openCanonical(path: string, options: DuckdbFileOptions): Promise<DuckdbFile> {
  const checkpoints = openCheckpoints(path, options)
  try {
    const instance = await createInstance(path, {
      // The tables are written by `checkpoints` alone: see there what DuckDB's own would risk.
      checkpoint_threshold: '1TB',
      // Nothing is ever fetched from outside.
      autoinstall_known_extensions: 'false',
      autoload_known_extensions: 'false',
      ...(options.memoryLimit === undefined ? {} : { memory_limit: options.memoryLimit }),
      ...(options.threads === undefined ? {} : { threads: String(options.threads) }),
    })
    try {
      return await openInstance(path, instance, checkpoints, options)
    } catch (cause) {
      instance.closeSync()
      throw cause
    }
  } catch (cause) {
    checkpoints.close()
    throw cause
  }
}

async function openInstance(
  path: string,
  instance: DuckDBInstance,
  checkpoints: Checkpoints,
  { report = console.error, now = Date.now }: Pick<DuckdbFileOptions, 'report' | 'now'>,
): Promise<DuckdbFile> {
  const writer = await instance.connect()
  const reader = await instance.connect()
  let audit: AuditLog
  try {
    await writer.run('PRAGMA disable_checkpoint_on_shutdown')
    await migrate(writer, path)
    audit = await openAuditLog(path, writer, { report, now })
  } catch (cause) {
    reader.closeSync()
    writer.closeSync()
    throw cause
  }
  const [row] = (await reader.runAndReadAll('SELECT current_database()')).getRows()
  let open = true
  let last: Promise<unknown> = Promise.resolve()
  const alone = <T>(task: () => Promise<T>): Promise<T> => {
    const turn = last.then(task)
    // Who waits for the turn hears of it at once; the next turn waits for the tables too.
    last = turn.then(
      () => (open ? checkpoints.run(writer) : undefined),
      () => undefined,
    )
    return turn
  }
  return {
    path,
    catalog: String(row?.[0]),
    reader,
    audit,
    connect: () => instance.connect(),
    transact: (task, on = writer) => alone(() => inTransaction(on, task, audit)),
    close: () =>
      alone(async () => {
        open = false
        await checkpoints.run(writer, true)
        await audit.noteEnd()
        reader.closeSync()
        writer.closeSync()
        instance.closeSync()
        checkpoints.close()
        openHere.delete(path)
      }),
  }
}

async function inTransaction<T>(
  connection: DuckDBConnection,
  task: (connection: DuckDBConnection) => Promise<T>,
  audit: AuditLog,
): Promise<T> {
  await connection.run('BEGIN TRANSACTION')
  try {
    const result = await task(connection)
    await connection.run('COMMIT')
    audit.committed()
    return result
  } catch (cause) {
    audit.rolledBack()
    // A failed COMMIT has rolled back by itself; the first failure is the one to report.
    await connection.run('ROLLBACK').catch(() => undefined)
    throw cause
  }
}

async function createInstance(path: string, settings: Record<string, string>): Promise<DuckDBInstance> {
  try {
    return await DuckDBInstance.create(path, settings)
  } catch (cause) {
    const holder = lockHolder(cause)
    if (holder !== null) throw new StoreInUse(path, holder, cause)
    throw new Error(`The data file ${path} could not be opened. It was left as it is.`, { cause })
  }
}

function canonicalPath(file: string): string {
  const folder = dirname(file)
  mkdirSync(folder, { recursive: true })
  return join(realpathSync(folder), basename(file))
}
