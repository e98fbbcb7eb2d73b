import { closeSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import { migrate } from './schema.ts'

/**
 * Makes an empty data file at a path where there is none. DuckDB writes a new file in several steps and cannot
 * open one that was left half made, so it is made beside and then gets its name at one stroke.
 */
export async function makeDatabase(path: string): Promise<void> {
  const beside = `${path}.new`
  const clear = () => {
    for (const leftover of [beside, `${beside}.wal`]) rmSync(leftover, { force: true })
  }
  clear()
  const instance = await DuckDBInstance.create(beside)
  const connection = await instance.connect()
  try {
    await migrate(connection, path)
    await connection.run('CHECKPOINT')
  } finally {
    connection.closeSync()
    instance.closeSync()
  }
  giveName(beside, path)
  clear()
  const folder = openSync(dirname(path), 'r')
  fsyncSync(folder)
  closeSync(folder)
}

function giveName(beside: string, path: string): void {
  try {
    // Unlike a rename, never replaces a file that another process has made and opened meanwhile.
    linkSync(beside, path)
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'EEXIST') return
    // A file system without links.
    renameSync(beside, path)
  }
}
