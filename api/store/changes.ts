import type { DuckDBConnection } from '@duckdb/node-api'
import { queryRows, type SqlValue } from './query-rows.ts'
import type { ArrivedReadings } from './store.ts'

/** What a change of readings touched; null for a change of records. */
interface TouchedReadings {
  readonly batch: number
  readonly firstMicros: number
  readonly lastMicros: number
}

/** Adds the site's next revision to the change log, inside the transaction that makes the change. */
export async function logChange(
  connection: DuckDBConnection,
  site: number,
  touched: TouchedReadings | null,
): Promise<void> {
  const values: Record<string, SqlValue> = {
    site,
    batch: touched?.batch ?? null,
    first: touched?.firstMicros ?? null,
    last: touched?.lastMicros ?? null,
  }
  await connection.run(
    `INSERT INTO change SELECT $site, coalesce(max(revision), 0) + 1, $batch,
       make_timestamp($first::BIGINT), make_timestamp($last::BIGINT) FROM change WHERE site = $site`,
    values,
  )
}

/** 0 for a site that nothing was ever written to. */
export async function readRevision(connection: DuckDBConnection, site: number): Promise<number> {
  const [row] = await queryRows<{ revision: number }>(
    connection,
    'SELECT coalesce(max(revision), 0) AS revision FROM change WHERE site = $site',
    { site },
  )
  return row?.revision ?? 0
}

/** Whole milliseconds, the end exclusive, as a `ReadingWindow` takes them. */
export async function readTouched(
  connection: DuckDBConnection,
  site: number,
  sinceRevision: number,
): Promise<{ fromEpochMs: number; untilEpochMs: number } | null> {
  const [row] = await queryRows<{ first: number | null; last: number | null }>(
    connection,
    `SELECT epoch_us(min(first_at)) AS first, epoch_us(max(last_at)) AS last
     FROM change WHERE site = $site AND revision > $sinceRevision`,
    { site, sinceRevision },
  )
  if (row === undefined || row.first === null || row.last === null) return null
  return { fromEpochMs: Math.floor(row.first / 1000), untilEpochMs: Math.floor(row.last / 1000) + 1 }
}

/** Readings accepted after a revision, by channel, and whether records changed after it too. */
export async function readArrived(
  connection: DuckDBConnection,
  site: number,
  sinceRevision: number,
): Promise<ArrivedReadings> {
  const [head] = await queryRows<{ revision: number; records: number }>(
    connection,
    `SELECT coalesce(max(revision), $sinceRevision) AS revision, count(*) FILTER (batch IS NULL) AS records
     FROM change WHERE site = $site AND revision > $sinceRevision`,
    { site, sinceRevision },
  )
  const revision = head?.revision ?? sinceRevision
  const rows = await queryRows<{ channel: number; first: number; last: number }>(
    connection,
    `SELECT channel, epoch_us(min("at")) AS first, epoch_us(max("at")) AS last FROM reading
     WHERE site = $site AND batch IN (
       SELECT batch FROM change
       WHERE site = $site AND revision > $sinceRevision AND revision <= $revision AND batch IS NOT NULL)
     GROUP BY channel ORDER BY channel`,
    { site, sinceRevision, revision },
  )
  return {
    revision,
    recordsChanged: (head?.records ?? 0) > 0,
    channels: rows.map(({ channel, first, last }) => ({
      channel,
      fromEpochMs: Math.floor(first / 1000),
      untilEpochMs: Math.floor(last / 1000) + 1,
    })),
  }
}
