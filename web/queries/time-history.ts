import type { Resolution } from '#contract/slice-columns.ts'
import type { Query } from '../engine/query.ts'

export interface HistoryWindow {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** Width of the plot; decides the resolution. */
  readonly widthPixels: number
  /** The shortest planned interval among the series. */
  readonly intervalMinutes: number
}

/**
 * Which slices answer a window: the finest of which a series has at most two buckets a pixel,
 * so that nothing finer could be seen.
 */
export function chooseResolution(window: HistoryWindow): Resolution {
  const minutes = (window.untilEpochMs - window.fromEpochMs) / 60_000
  const most = 2 * Math.max(1, window.widthPixels)
  if (minutes / window.intervalMinutes <= most) return 'raw'
  if (minutes / 60 <= most) return 'hour'
  return 'day'
}

/**
 * Readings over time of some series, one bucket beyond each end so that lines run off the plot.
 * Columns: series, at_ms, last_at_ms, value, low, high, n, quality, received_after_s, flags; in order of series and time.
 * A bucket of one reading stands at that reading's instant, a fuller one at its middle; last_at_ms is the instant of
 * the last reading with a value in it.
 * NaN value: read, but without a value. received_after_s is known at raw resolution only.
 */
export function timeHistory(
  window: HistoryWindow & { readonly series: readonly number[]; readonly resolution?: Resolution },
): Query & { readonly resolution: Resolution } {
  const resolution = window.resolution ?? chooseResolution(window)
  const bucketMs = { raw: window.intervalMinutes * 60_000, hour: 3_600_000, day: 86_400_000 }[resolution]
  const fromEpochMs = window.fromEpochMs - bucketMs
  const untilEpochMs = window.untilEpochMs + bucketMs
  const params = [window.series, fromEpochMs, untilEpochMs]
  const needs = [{ resolution, fromEpochMs, untilEpochMs }]
  if (resolution === 'raw')
    return {
      resolution,
      params,
      needs,
      sql: `
        select series, "at" as at_ms, "at" as last_at_ms, value, value as low, value as high,
          (case when value is null then 0 else 1 end)::integer as n, quality, received_after_s, flags
        from raw_values
        where series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?)
        order by series, at_ms`,
    }
  return {
    resolution,
    params: [bucketMs / 2, ...params],
    needs,
    sql: `
      select series, case when n <= 1 then last_at else epoch_ms(epoch_ms("at") + ?) end as at_ms,
        last_at as last_at_ms, mean as value, low, high, n, quality, null::integer as received_after_s, flags
      from ${resolution === 'hour' ? 'hour_rollup' : 'day_rollup'}
      where series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?)
      order by series, at_ms`,
  }
}
