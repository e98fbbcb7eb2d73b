import type { DuckDBConnection } from '@duckdb/node-api'
import type { ChannelSpans } from './channel-spans.ts'
import { queryRows, timestampLiteral } from './query-rows.ts'

/** What became of the staged readings of a batch; the three counts add up to what was staged. */
interface AddedReadings {
  readonly accepted: number
  readonly repeated: number
  readonly conflicting: number
  /** Range of the accepted ones, in microseconds; null when there are none. */
  readonly acceptedRange: { readonly firstMicros: number; readonly lastMicros: number } | null
}

/**
 * A file by time, or by channel and then time, is stored in its own order: either compresses to 3 to 6 bytes a
 * reading, while a file by channel that was sorted by time took 12. Only a file in neither order is sorted.
 */
const rowsAStepBack = 50

/**
 * Moves the staged readings into the store, inside the commit's transaction. The first value of a channel and
 * instant stays for ever; the same value again is a repeat, and so is a differing value that already waits for a
 * person; any other differing value becomes a conflict. Within a batch the order of the file decides which is first.
 */
export async function addReadings(
  connection: DuckDBConnection,
  site: number,
  batch: number,
  staged: ChannelSpans,
  stored: ChannelSpans,
): Promise<AddedReadings> {
  const { count, firstMicros, lastMicros } = staged
  if (count === 0) return { accepted: 0, repeated: 0, conflicting: 0, acceptedRange: null }
  if (staged.increasing && !staged.overlaps(stored)) {
    await connection.run(insertFrom('temp.stage', site, batch, staged.stepsBack > count / rowsAStepBack))
    return { accepted: count, repeated: 0, conflicting: 0, acceptedRange: { firstMicros, lastMicros } }
  }

  const firsts = staged.increasing
    ? 'SELECT channel, "at", raw, received_at FROM temp.stage'
    : `SELECT channel, "at", arg_min(raw, rowid) AS raw, arg_min(received_at, rowid) AS received_at
       FROM temp.stage GROUP BY channel, "at"`
  await connection.run(
    `CREATE OR REPLACE TEMP TABLE kept AS
     SELECT f.channel, f."at", coalesce(k.raw, f.raw) AS raw, f.received_at, k.raw IS NULL AS fresh
     FROM (${firsts}) f
     LEFT JOIN (
       SELECT channel, "at", raw FROM reading
       WHERE site = ${site} AND "at" >= ${timestampLiteral(firstMicros)} AND "at" <= ${timestampLiteral(lastMicros)}
     ) k ON k.channel = f.channel AND k."at" = f."at"`,
  )
  const [fresh] = await queryRows<{ accepted: number; first: number | null; last: number | null }>(
    connection,
    `SELECT count(*) AS accepted, epoch_us(min("at")) AS first, epoch_us(max("at")) AS last FROM temp.kept WHERE fresh`,
  )
  const accepted = fresh?.accepted ?? 0
  if (accepted > 0) await connection.run(insertFrom('temp.kept WHERE fresh', site, batch, true))
  const conflicts = await connection.run(
    `INSERT INTO conflict
     SELECT DISTINCT ${site}, ${batch}, s.channel, s."at", k.raw, s.raw
     FROM temp.stage s JOIN temp.kept k ON k.channel = s.channel AND k."at" = s."at"
     WHERE s.raw <> k.raw AND NOT EXISTS (
       SELECT 1 FROM conflict c
       WHERE c.site = ${site} AND c.channel = s.channel AND c."at" = s."at" AND c.offered_raw = s.raw)`,
  )
  const conflicting = conflicts.rowsChanged
  return {
    accepted,
    repeated: count - accepted - conflicting,
    conflicting,
    acceptedRange:
      fresh === undefined || fresh.first === null || fresh.last === null
        ? null
        : { firstMicros: fresh.first, lastMicros: fresh.last },
  }
}

function insertFrom(source: string, site: number, batch: number, sort: boolean): string {
  return `INSERT INTO reading SELECT ${site}, channel, "at", raw, received_at, ${batch} FROM ${source}
          ${sort ? 'ORDER BY "at", channel' : ''}`
}
