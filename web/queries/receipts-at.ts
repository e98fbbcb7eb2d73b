import { earliestReceiptMsSql, knownBySql, receiptKeptToMs } from '#domain/receipt/known-by.ts'
import type { Query } from '../engine/query.ts'

/**
 * Series of which a value taken by an instant, and since another, had not been received at it, told from the readings
 * themselves: buckets keep no receipts. Values received within the quarter of an hour are none of them. Column: series.
 */
export const seriesNotArrived = (asked: {
  readonly atEpochMs: number
  readonly sinceEpochMs: number
}): Query => ({
  params: [asked.sinceEpochMs, asked.atEpochMs, asked.atEpochMs],
  needs: [{ resolution: 'raw', fromEpochMs: asked.sinceEpochMs, untilEpochMs: asked.atEpochMs }],
  sql: `
    select distinct series from raw_values
    where received_after_s is not null and value is not null and "at" >= epoch_ms(?) and "at" <= epoch_ms(?)
      and not ${knownBySql(earliestReceiptMsSql, '?')} order by series`,
})

/** Series that are looked back on as far. */
export interface LookBack {
  readonly series: readonly number[]
  readonly sinceEpochMs: number
}

/**
 * Of each series the last value that had been received at an instant, and the newest one taken by then with its receipt.
 * A value counts when it was taken a quarter of an hour before or earlier and had been received. Columns: series, last_at_ms, value, quality,
 * flags (NaN: none had been received since the look-back), newest_at_ms, newest_received_ms (where receipt is not kept: as taken).
 */
export function lastReceivedAt(atEpochMs: number, lookBacks: readonly LookBack[]): Query {
  const known = 'filter (where came)'
  return {
    params: [
      ...[atEpochMs - receiptKeptToMs, atEpochMs, atEpochMs],
      ...lookBacks.flatMap(({ series, sinceEpochMs }) => [series, sinceEpochMs]),
    ],
    needs: [
      {
        resolution: 'raw',
        fromEpochMs: Math.min(...lookBacks.map(({ sinceEpochMs }) => sinceEpochMs)),
        untilEpochMs: atEpochMs,
      },
    ],
    sql: `
      with taken as (
        select series, epoch_ms("at") as at_ms, value, quality, flags, ${earliestReceiptMsSql} as received_ms,
          "at" <= epoch_ms(?) and ${knownBySql(earliestReceiptMsSql, '?')} as came
        from raw_values
        where value is not null and "at" <= epoch_ms(?)
          and (${lookBacks.map(() => '(series in ? and "at" >= epoch_ms(?))').join(' or ')}))
      select series, (max(at_ms) ${known})::double as last_at_ms, arg_max(value, at_ms) ${known} as value,
        (arg_max(quality, at_ms) ${known})::integer as quality, (arg_max(flags, at_ms) ${known})::integer as flags,
        max(at_ms)::double as newest_at_ms, arg_max(received_ms, at_ms)::double as newest_received_ms
      from taken group by series order by series`,
  }
}
