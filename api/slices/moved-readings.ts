import type { DuckDBConnection } from '@duckdb/node-api'
import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import type { CorrectionEffect } from '#domain/corrections/correction-proposal.ts'
import { insertRows } from './insert-rows.ts'
import type { Recipe } from './recipe.ts'
import { micros } from './reduce-window.ts'

/**
 * Table `moved_reading`: readings that clocks bring to another instant, by their series, with where they stand as recorded and
 * as corrected and when they were received. Empty where no clock is corrected.
 */
export async function findMoved(
  connection: DuckDBConnection,
  { links, numberOf }: Recipe,
  changes: readonly ProposedCorrection[],
  readings: { readonly before_value: string; readonly after_value: string },
): Promise<void> {
  const moving = new Set(
    changes.flatMap((one) => (one.kind === 'clock' ? (one.moves ?? []).map((id) => numberOf.get(id)) : [])),
  )
  const wired = links.filter(({ series }) => moving.has(series))
  await connection.run(
    'create or replace temp table wired_then (series integer, channel integer, from_at timestamp, until_at timestamp)',
  )
  await insertRows(
    connection,
    'wired_then',
    wired.map(({ series, channel, fromEpochMs, untilEpochMs }) =>
      [series, channel, micros(fromEpochMs), micros(untilEpochMs)].join(', '),
    ),
  )
  const channels = [...new Set(wired.map(({ channel }) => channel))].join(', ')
  const of = (view: string) =>
    `(from ${view} where ${channels === '' ? 'false' : `channel in (${channels})`})`
  await connection.run(`
    create or replace temp table moved_reading as
    select w.series, b."at" as before_at, a."at" as after_at, a.received_at
    from ${of(readings.before_value)} b join ${of(readings.after_value)} a on a.channel = b.channel and a.stamp = b.stamp
    join wired_then w on w.channel = b.channel and w.from_at <= b."at" and b."at" < w.until_at
    where a."at" <> b."at"`)
}

/** What of a series moves; `newlyLate`: of them, those that were in time as recorded and count as received late then. */
export async function movedOf(
  connection: DuckDBConnection,
  series: number,
  lateAfterMinutes: number,
): Promise<Pick<CorrectionEffect, 'moved'>> {
  const movedMs = 'epoch_ms(after_at) - epoch_ms(before_at)'
  const late = (at: string) => `received_at - ${at} > interval (${lateAfterMinutes * 60}) second`
  const reader = await connection.runAndReadAll(`
    select count(*)::double, arg_max(${movedMs}, abs(${movedMs}))::double,
      count(*) filter (where ${late('after_at')} and not ${late('before_at')})::double
    from moved_reading where series = ${series}`)
  const [readings, mostMs, newlyLate] = (reader.getRows()[0] ?? []) as (number | null)[]
  return readings ? { moved: { readings, mostSeconds: (mostMs ?? 0) / 1000, newlyLate: newlyLate ?? 0 } } : {}
}
