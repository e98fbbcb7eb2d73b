import type { Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { type LastReading, seriesState } from '#domain/levels/series-state.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Columns } from '../engine/columns.ts'

/**
 * States of every series as of an instant, from the answer to `seriesStatesAt` and the levels on values (`valueLevels`). Buckets do not keep the
 * time of receipt: `receivedAtEpochMs` is null, and lateness is told from the reading's own instant. A value
 * that came in later than the instant counts as it is known now; `known-then.ts` tells which do.
 */
export function statesAt(
  columns: Columns,
  series: readonly Series[],
  levels: readonly TriggerLevel[],
  asOfEpochMs: number,
): readonly SeriesState[] {
  return judgeLast(lastReadings(columns), series, levels, asOfEpochMs)
}

/** The same from last readings by series number; a series without one never gave a reading. */
export function judgeLast(
  lastOf: ReadonlyMap<number, LastReading>,
  series: readonly Series[],
  levels: readonly TriggerLevel[],
  asOfEpochMs: number,
): readonly SeriesState[] {
  const levelsOf = groupBy(levels, (level) => level.series)
  return series.map((one) => {
    const state = seriesState({
      series: one.series,
      last: lastOf.get(one.series) ?? null,
      levels: levelsOf.get(one.id) ?? [],
      asOfEpochMs,
      lateAfterMinutes: one.lateAfterMinutes,
    })
    return { ...state, receivedAtEpochMs: null }
  })
}

/** Last readings by series number, of an answer with series, last_at_ms, value, quality and flags. Rows without an instant are none. */
export function lastReadings(columns: Columns): Map<number, LastReading> {
  const [numbers, at, values, qualities, flags] = [
    columns.number('series'),
    columns.number('last_at_ms'),
    columns.number('value'),
    columns.number('quality'),
    columns.number('flags'),
  ]
  const last = new Map<number, LastReading>()
  for (let row = 0; row < columns.rows; row++) {
    const [atEpochMs, value] = [at[row] as number, values[row] as number]
    if (!Number.isFinite(atEpochMs)) continue
    last.set(numbers[row] as number, {
      atEpochMs,
      receivedAtEpochMs: atEpochMs,
      value: Number.isFinite(value) ? value : null,
      quality: qualities[row] as number,
      flags: flags[row] as number,
    })
  }
  return last
}
