import { closeSync, existsSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs'
import { DuckDBInstance } from '@duckdb/node-api'
import {
  headerBytes,
  journalPath,
  readAt,
  readJournal,
  removeJournal,
  syncFolder,
} from './checkpoint-journal.ts'
import { makeDatabase } from './make-database.ts'
import { lockHolder, StoreInUse } from './store-in-use.ts'

/** While this is there, a process may be putting the data file back. */
const lockPath = (dataFile: string): string => `${dataFile}.restoring`

/** Whether a checkpoint, or the restoring of an earlier one, is under way or was cut short. */
export const isBeingRestored = (dataFile: string): boolean =>
  existsSync(journalPath(dataFile)) || existsSync(lockPath(dataFile))

/**
 * Puts the data file back as it was before a checkpoint that a kill cut short, then opens it by `open`. Throws
 * `StoreInUse` when the checkpoint is not cut short but another process is at it, or at putting the file back.
 */
export async function restoreAndOpen<T>(dataFile: string, open: () => Promise<T>): Promise<T> {
  // DuckDB is the only way from here to a lock of the system that dies with its process, and it locks only what it
  // opens. The data file itself cannot be opened before it is restored, so a database of its own is locked.
  const lock = lockPath(dataFile)
  const held = await takeLock(dataFile, lock)
  try {
    await refuseIfOpenElsewhere(dataFile)
    restore(dataFile)
    return await open()
  } finally {
    held.closeSync()
    for (const leftover of ['', '.wal', '.new', '.new.wal']) rmSync(`${lock}${leftover}`, { force: true })
  }
}

async function takeLock(dataFile: string, lock: string): Promise<DuckDBInstance> {
  try {
    if (!existsSync(lock)) await makeDatabase(lock)
    return await DuckDBInstance.create(lock)
  } catch (cause) {
    const holder = lockHolder(cause)
    if (holder !== null) throw new StoreInUse(dataFile, holder, cause)
    throw new Error(
      `The data file ${dataFile} was left by an interrupted checkpoint and is not put back yet, because ${lock} could not be made. Nothing that was taken in is lost: make room on the disk, or remove that file, and start again.`,
      { cause },
    )
  }
}

async function refuseIfOpenElsewhere(dataFile: string): Promise<void> {
  try {
    // For reading only, so that whatever state the file is in nothing is written.
    const instance = await DuckDBInstance.create(dataFile, { access_mode: 'READ_ONLY' })
    instance.closeSync()
  } catch (cause) {
    const holder = lockHolder(cause)
    if (holder !== null) throw new StoreInUse(dataFile, holder, cause)
    // Any other failure is what restoring mends, or what opening will tell of.
  }
}

function restore(dataFile: string): void {
  // One that is not whole was being written when the kill came: its checkpoint had not begun.
  const journal = readJournal(dataFile)
  if (journal !== null) {
    const file = openSync(dataFile, 'r+')
    try {
      // A checkpoint is complete once it has changed one of the two headers, which it does last.
      if (readAt(file, 0, headerBytes).equals(journal.headers)) {
        for (const { position, bytes } of journal.blocks) {
          const written = writeSync(file, bytes, 0, bytes.length, position)
          if (written !== bytes.length)
            throw new Error(
              `The data file ${dataFile} could not be put back as it was before an interrupted checkpoint: ${written} of ${bytes.length} bytes could be written at ${position}. What is needed for it stays in ${journalPath(dataFile)}. Start again when the disk has room.`,
            )
        }
        fsyncSync(file)
      }
    } finally {
      closeSync(file)
    }
  }
  removeJournal(dataFile)
  syncFolder(dataFile)
}
