import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { createAnswer } from '../create-answer.ts'

/** Readings of a series, or its mean of each day where there are many; null values where it had none. */
export interface SeriesReadings {
  readonly atEpochMs: readonly number[]
  readonly values: readonly (number | null)[]
}

const dayMs = 86_400_000

/** Readings of a series from an instant to another; null while they are asked for, or nothing is chosen. */
export function createSeriesReadings(
  wanted: () => { series: Series; fromEpochMs: number; untilEpochMs: number } | null,
) {
  const asked = createAnswer(() => {
    const on = wanted()
    if (!on || !(on.untilEpochMs > on.fromEpochMs)) return null
    const { series, fromEpochMs, untilEpochMs } = on
    const rare = series.intervalMinutes >= 1440
    return {
      ...timeHistory({
        fromEpochMs,
        untilEpochMs,
        widthPixels: 1,
        intervalMinutes: series.intervalMinutes,
        series: [series.series],
        resolution: rare ? 'raw' : 'day',
      }),
      fromEpochMs,
      untilEpochMs: rare ? untilEpochMs : Math.floor(untilEpochMs / dayMs) * dayMs,
    }
  })
  const readings = createMemo((): SeriesReadings | null => {
    const answer = asked.answer()
    if (!answer) return null
    const { fromEpochMs, untilEpochMs } = answer.question
    const [at, value] = [answer.columns.number('at_ms'), answer.columns.number('value')]
    // The query gives a bucket beyond each end; a day that the clock cuts would tell of what comes after it.
    const rows = [...at.keys()].filter((row) => {
      const instant = at[row] as number
      return instant >= fromEpochMs && instant <= untilEpochMs
    })
    return {
      atEpochMs: rows.map((row) => at[row] as number),
      values: rows.map((row) => (Number.isFinite(value[row]) ? (value[row] as number) : null)),
    }
  })
  return { readings, remarks: asked.remarks, waiting: asked.waiting }
}
