import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import { knownBySql } from '#domain/receipt/known-by.ts'
import { quoteName, timestampLiteral } from './query-rows.ts'
import type { ReadingWindow } from './store.ts'

/**
 * A view of the readings on one connection, gone with it: nothing is copied and nothing is written to the file.
 * The bounds are constants in the view, so a scan reads only the parts of the table that the window touches.
 */
export async function exposeReadings(
  connection: DuckDBConnection,
  catalog: string,
  /** Null: a site without readings. */
  site: number | null,
  name: string,
  { fromEpochMs, untilEpochMs, bound }: ReadingWindow,
): Promise<void> {
  const conditions = [site === null ? 'false' : `site = ${site}`]
  if (fromEpochMs !== undefined) conditions.push(`"at" >= ${instantLiteral(fromEpochMs)}`)
  if (untilEpochMs !== undefined) conditions.push(`"at" < ${instantLiteral(untilEpochMs)}`)
  if (bound !== undefined)
    conditions.push(
      knownBySql('received_at', instantLiteral(bound.receivedUntilEpochMs)),
      `batch <= ${Math.round(bound.throughBatch)}`,
    )
  await connection.run(
    `CREATE OR REPLACE TEMP VIEW ${quoteName(name)} AS
     SELECT channel, "at", raw, received_at, batch FROM ${quoteName(catalog)}.main.reading
     WHERE ${conditions.join(' AND ')}`,
  )
}

function instantLiteral(atEpochMs: number): string {
  assert(Number.isFinite(atEpochMs), `a window of readings is bounded by ${atEpochMs}`)
  return timestampLiteral(atEpochMs * 1000)
}
