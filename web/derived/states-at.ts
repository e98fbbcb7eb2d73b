import type { Series } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { seriesState } from '#domain/levels/series-state.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Columns } from '../engine/columns.ts'

/**
 * States of every series as of an instant, from the answer to `seriesStatesAt` and the levels on values (`valueLevels`). Buckets do not keep the
 * time of receipt: `receivedAtEpochMs` is null, and lateness is told from the reading's own instant. A value
 * that came in later than the instant counts as it is known now; its quality says so.
 */
export function statesAt(
  columns: Columns,
  series: readonly Series[],
  levels: readonly TriggerLevel[],
  asOfEpochMs: number,
): readonly SeriesState[] {
  const numbers = columns.number('series')
  const rowOf = new Map<number, number>()
  for (let row = 0; row < columns.rows; row++) rowOf.set(numbers[row] as number, row)
  const levelsOf = new Map<string, TriggerLevel[]>()
  for (const level of levels) {
    const known = levelsOf.get(level.series)
    if (known) known.push(level)
    else levelsOf.set(level.series, [level])
  }
  return series.map((one) => {
    const row = rowOf.get(one.series)
    const state = seriesState({
      series: one.series,
      last: row === undefined ? null : lastReading(columns, row),
      levels: levelsOf.get(one.id) ?? [],
      asOfEpochMs,
      lateAfterMinutes: one.lateAfterMinutes,
    })
    return { ...state, receivedAtEpochMs: null }
  })
}

function lastReading(columns: Columns, row: number) {
  const value = columns.number('value')[row] as number
  const atEpochMs = columns.number('last_at_ms')[row] as number
  return {
    atEpochMs,
    receivedAtEpochMs: atEpochMs,
    value: Number.isFinite(value) ? value : null,
    quality: columns.number('quality')[row] as number,
    flags: columns.number('flags')[row] as number,
  }
}
