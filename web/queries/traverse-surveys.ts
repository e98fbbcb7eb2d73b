import type { Query } from '../engine/query.ts'

const dayMs = 86_400_000

/** How far back from the clock surveys are listed. */
export const surveysWithinDays = 120

/**
 * Every reading of some series in the days before an instant, from hourly slices: a casing takes longer than an hour to
 * traverse, so no survey shares an hour with another.
 * Columns: series, at_ms, value; newest first.
 */
export function traverseSurveys({
  atEpochMs,
  series,
}: {
  readonly atEpochMs: number
  readonly series: readonly number[]
}): Query {
  const fromEpochMs = atEpochMs - surveysWithinDays * dayMs
  return {
    sql: `
      select series, last_at as at_ms, last as value from hour_rollup
      where series in ? and last_at > epoch_ms(?) and last_at <= epoch_ms(?)
      order by at_ms desc, series`,
    params: [series, fromEpochMs, atEpochMs],
    needs: [{ resolution: 'hour', fromEpochMs, untilEpochMs: atEpochMs }],
  }
}
