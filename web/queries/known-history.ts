import type { Resolution } from '#contract/slice-columns.ts'
import { earliestReceiptMsSql, knownBySql } from '#domain/receipt/known-by.ts'
import type { Query } from '../engine/query.ts'
import { chooseResolution, type HistoryWindow } from './time-history.ts'

/**
 * Readings over time parted by what had been received at an instant: like `timeHistory`, made from the readings
 * themselves, since buckets do not keep the time of receipt. Columns: series, known (1: received by then, 0: later),
 * at_ms, last_at_ms, value, low, high, n, quality, received_after_s (of the readings of a bucket the latest), flags, first_received_ms,
 * last_received_ms; in order of series, known and time. Hours and days hold readings of one of the two only.
 */
export function knownHistory(
  window: HistoryWindow & { readonly series: readonly number[]; readonly knownAtEpochMs: number },
): Query & { readonly resolution: Resolution; readonly knownAtEpochMs: number } {
  const { series, fromEpochMs, untilEpochMs, knownAtEpochMs } = window
  const resolution = chooseResolution(window)
  const bucketMs = { raw: 1, hour: 3_600_000, day: 86_400_000 }[resolution]
  return {
    resolution,
    knownAtEpochMs,
    params: [knownAtEpochMs, series, fromEpochMs, untilEpochMs, bucketMs],
    needs: [{ resolution: 'raw', fromEpochMs, untilEpochMs }],
    sql: `
      with received as (
        select *, epoch_ms("at") as at_epoch, ${earliestReceiptMsSql} as received_ms,
          (case when ${knownBySql(earliestReceiptMsSql, '?')} then 1 else 0 end)::integer as known
        from raw_values where series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?))
      select series, known, epoch_ms(avg(at_epoch)::bigint) as at_ms,
        coalesce(max(at_epoch) filter (value is not null), max(at_epoch))::double as last_at_ms, avg(value) as value, min(value) as low,
        max(value) as high, count(value)::integer as n, bit_or(quality)::integer as quality,
        max(received_after_s)::integer as received_after_s, bit_or(flags)::integer as flags,
        min(received_ms)::double as first_received_ms, max(received_ms)::double as last_received_ms
      from received group by series, known, at_epoch // ? order by series, known, at_ms`,
  }
}

/**
 * Times at which readings of a series came in later than a quarter of an hour after they were taken, a row each.
 * Columns: received_ms, n, first_at_ms, last_at_ms; in order of receipt. Readings received within one minute came together.
 */
export const lateArrivals = (asked: {
  readonly series: number
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}): Query => ({
  params: [[asked.series], asked.fromEpochMs, asked.untilEpochMs],
  needs: [{ resolution: 'raw', fromEpochMs: asked.fromEpochMs, untilEpochMs: asked.untilEpochMs }],
  sql: `
    select max(${earliestReceiptMsSql})::double as received_ms, count(*)::integer as n,
      min(epoch_ms("at"))::double as first_at_ms, max(epoch_ms("at"))::double as last_at_ms
    from raw_values
    where series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?) and received_after_s is not null
    group by (${earliestReceiptMsSql}) // 60000 order by received_ms`,
})
