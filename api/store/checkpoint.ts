import { closeSync, openSync, statfsSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import { wordsOfFailure } from '../words-of-failure.ts'
import { headerBytes, removeJournal, writeJournal } from './checkpoint-journal.ts'
import { queryRows } from './query-rows.ts'

/**
 * When the write-ahead log passes this, the tables are written after the commit that passed it, and the log begins
 * anew. It bounds the log and what a start has to replay (well under a second).
 */
const usualLogLimitBytes = 16e6

/** Left free on the disk by a checkpoint; one that runs out of room makes DuckDB refuse all further work. */
const spareBytes = 64e6

export interface Checkpoints {
  /** Writes the tables if the log has grown long enough, or `always`; to be called when nobody else writes. */
  run(connection: DuckDBConnection, always?: boolean): Promise<void>
  close(): void
}

/**
 * Folds the log of a data file into its tables. DuckDB writes over blocks of its own index (metadata) that the
 * header in force still needs, and a kill in the middle of one leaves a file that does not open; so these
 * blocks are kept beside until the new header stands, and `restoreAndOpen` puts them back. To be opened before
 * DuckDB opens the file and closed after it has closed it.
 */
export function openCheckpoints(
  dataFile: string,
  {
    logLimitBytes = usualLogLimitBytes,
    report = console.error,
  }: { readonly logLimitBytes?: number; readonly report?: (line: string) => void },
): Checkpoints {
  // The system drops the lock that DuckDB has on the file as soon as this process closes any other handle of it.
  // Windows shares no file that is open for writing: there the blocks cannot be kept.
  const reading = process.platform === 'win32' ? null : openSync(dataFile, 'r')
  return {
    async run(connection, always = false) {
      const logBytes = statSync(`${dataFile}.wal`, { throwIfNoEntry: false })?.size ?? 0
      if (logBytes === 0 || (!always && logBytes <= logLimitBytes)) return
      try {
        const free = freeBytes(dataFile)
        if (free < 2 * logBytes + spareBytes) {
          report(
            `The disk of ${dataFile} is nearly full: ${Math.round(free / 1e6)} MB are free. What was taken in is kept in its log; make room, so that the log can be folded in.`,
          )
          return
        }
        if (reading !== null) await keepBlocks(connection, dataFile, reading)
        await connection.run('CHECKPOINT')
      } catch (cause) {
        report(
          `The log of ${dataFile} could not be folded into its tables; nothing that was taken in is lost. If what follows fails too, make room on the disk and start again. Because: ${wordsOfFailure(cause)}`,
        )
        return
      }
      removeJournal(dataFile)
    },
    close() {
      if (reading !== null) closeSync(reading)
    },
  }
}

/** Infinity where the file system does not say. */
function freeBytes(dataFile: string): number {
  const { blocks, bavail, bsize } = statfsSync(dirname(dataFile))
  return blocks > 0 ? bavail * bsize : Number.POSITIVE_INFINITY
}

async function keepBlocks(connection: DuckDBConnection, dataFile: string, reading: number): Promise<void> {
  const blocks = await queryRows<{ position: number; bytes: number }>(
    connection,
    `SELECT ${headerBytes} + block_id * block_size AS position, block_size AS bytes
     FROM pragma_metadata_info(),
       (SELECT block_size FROM pragma_database_size() WHERE database_name = current_database())`,
  )
  assert(blocks.length > 0, `no metadata blocks in ${dataFile}`)
  writeJournal(
    dataFile,
    reading,
    blocks.map(({ position }) => position),
    blocks[0]?.bytes ?? 0,
  )
}
