import type { Query } from '../engine/query.ts'

/**
 * Day means of the loggers' voltages and temperatures, from `fromEpochMs` until the instant. Columns: series, at_ms (start of
 * the UTC day), value; in order of series and time. Days without a value are left out; the day of the instant counts only
 * if it has ended.
 */
export function batteryDays({
  fromEpochMs,
  atEpochMs,
  series,
}: {
  readonly fromEpochMs: number
  readonly atEpochMs: number
  readonly series: readonly number[]
}): Query {
  return {
    sql: `
      select series, epoch_ms("at")::double as at_ms, mean as value from day_rollup
      where series in ? and "at" >= epoch_ms(?) and "at" + interval 1 day <= epoch_ms(?) and n > 0
      order by series, at_ms`,
    params: [series, fromEpochMs, atEpochMs],
    needs: [{ resolution: 'day', fromEpochMs, untilEpochMs: atEpochMs }],
  }
}
