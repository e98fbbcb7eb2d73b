import type { Parameter } from '#contract/write-literals.ts'
import type { Query } from '../engine/query.ts'

const hourMs = 3_600_000

/** A day and the hour that may straddle the clock: beyond this day buckets answer exactly. */
export const hourLookBackMs = 25 * hourMs

export interface LastQuestion {
  readonly atEpochMs: number
  /** Series numbers; undefined: every one. */
  readonly series?: readonly number[]
  /**
   * Series read oftener than hourly (`oftenRead`) whose readings of the clock's own hour are wanted too, from raw
   * slices; one taken at the very beginning of the hour is of them. Without it, and where raw slices cannot be had
   * (`coarser`), such a value may be up to an hour older than the newest; its age is still its own.
   */
  readonly refineSeries?: readonly number[]
}

/**
 * The last value of each series at or before an instant, with its own instant and quality.
 *
 * No bucket may tell what happened after the clock, so only buckets count whose last reading is at or before
 * it: hour buckets of the last 25 hours, and day buckets for series that were silent so long (points levelled
 * weekly, cut cables). A day bucket that straddles the clock began within those 25 hours, so the hours
 * before the clock are all looked at. What is left is the part of the clock's own hour up to the clock, which at a whole
 * hour is its first instant: `refineSeries`.
 * A bucket without any value has no `last_at` and does not count, nor does a reading without one: the value before it
 * grows old instead.
 *
 * Columns: series, last_at_ms, value, quality, flags (union of those of the last bucket), in order of series.
 */
export function lastAtOrBefore({ atEpochMs, series, refineSeries = [] }: LastQuestion): Query {
  const only = series ? 'and series in ?' : ''
  const onlyParams: Parameter[] = series ? [series] : []
  const hourStart = Math.floor(atEpochMs / hourMs) * hourMs
  const refine = refineSeries.length > 0
  const params: Parameter[] = [
    ...[atEpochMs - hourLookBackMs, atEpochMs, ...onlyParams],
    ...[atEpochMs, ...onlyParams],
    ...(refine ? [hourStart, atEpochMs, refineSeries] : []),
  ]
  const sql = `
    with recent as (
      select series, max(last_at) as last_at, arg_max_null(last, last_at) as value,
        arg_max_null(quality, last_at) as quality, arg_max_null(flags, last_at) as flags
      from hour_last
      where last_at >= epoch_ms(?) and last_at <= epoch_ms(?) ${only}
      group by series),
    earlier as (
      select series, max(last_at) as last_at, arg_max_null(last, last_at) as value,
        arg_max_null(quality, last_at) as quality, arg_max_null(flags, last_at) as flags
      from day_last
      where last_at <= epoch_ms(?) ${only}
        and series not in (select series from recent)
      group by series),
    known as (select * from recent union all select * from earlier ${
      refine
        ? `union all select series, max("at"), arg_max_null(value, "at"), arg_max_null(quality, "at"),
             arg_max_null(flags, "at")
             from raw_values where value is not null and "at" >= epoch_ms(?) and "at" <= epoch_ms(?) and series in ?
             group by series`
        : ''
    })
    ${
      refine
        ? `select series, max(last_at) as last_at_ms, arg_max_null(value, last_at) as value,
            arg_max_null(quality, last_at) as quality, arg_max_null(flags, last_at) as flags from known group by series`
        : 'select series, last_at as last_at_ms, value, quality, flags from known'
    } order by series`
  return {
    sql,
    params,
    needs: [
      { resolution: 'hour', byTime: true, fromEpochMs: atEpochMs - hourLookBackMs, untilEpochMs: atEpochMs },
      { resolution: 'day', byTime: true, fromEpochMs: Number.NEGATIVE_INFINITY, untilEpochMs: atEpochMs },
      ...(refine ? [{ resolution: 'raw' as const, fromEpochMs: hourStart, untilEpochMs: atEpochMs }] : []),
    ],
    ...(refine ? { coarser: lastAtOrBefore(series ? { atEpochMs, series } : { atEpochMs }) } : {}),
  }
}
