import type { Query } from '../engine/query.ts'

/**
 * Hours of a series, of the barometer beside it and of a rain gauge, from `fromEpochMs` until before `untilEpochMs`.
 * Columns: series, at_ms, value, n, quality, flags; in order of series and time. The mean of an hour stands at the middle
 * of its readings, which are taken to be the series' interval apart, so that both series are compared at like instants.
 * NaN value: read, but without a value; it stands at the middle of its hour.
 */
export function levelAndAir({
  fromEpochMs,
  untilEpochMs,
  series,
}: {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly series: readonly { readonly series: number; readonly intervalMinutes: number }[]
}): Query {
  const intervals = series.map(() => 'when ? then ?').join(' ')
  return {
    sql: `
      select series, coalesce(epoch_ms(last_at) - greatest(n - 1, 0) * (case series ${intervals} end) / 2,
          epoch_ms("at") + 1800000)::double as at_ms,
        mean as value, n, quality, flags
      from hour_rollup
      where series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?)
      order by series, at_ms`,
    params: [
      ...series.flatMap((one) => [one.series, one.intervalMinutes * 60_000]),
      series.map((one) => one.series),
      fromEpochMs,
      untilEpochMs,
    ],
    needs: [{ resolution: 'hour', fromEpochMs, untilEpochMs: untilEpochMs - 1 }],
  }
}
