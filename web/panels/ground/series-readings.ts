import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { verdictSentence } from '../../derived/said-of-values.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { createAnswer } from '../create-answer.ts'

/** Readings of a series, or its mean of each day where there are many; null values where it had none. */
export interface SeriesReadings {
  readonly atEpochMs: readonly number[]
  readonly values: readonly (number | null)[]
  /** What must be known of them, whole sentences: that they are means, how old the last is, what people found. */
  readonly sentences: readonly string[]
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
      rare,
      on: series,
      clockEpochMs: untilEpochMs,
      fromEpochMs,
      untilEpochMs: rare ? untilEpochMs : Math.floor(untilEpochMs / dayMs) * dayMs,
    }
  })
  const readings = createMemo((): SeriesReadings | null => {
    const answer = asked.answer()
    if (!answer) return null
    const { fromEpochMs, untilEpochMs, rare, on, clockEpochMs: clock } = answer.question
    const [at, value] = [answer.columns.number('at_ms'), answer.columns.number('value')]
    // The query gives a bucket beyond each end; a day that the clock cuts would tell of what comes after it.
    const rows = [...at.keys()].filter((row) => {
      const instant = at[row] as number
      return instant >= fromEpochMs && instant <= untilEpochMs
    })
    return {
      atEpochMs: rows.map((row) => at[row] as number),
      values: rows.map((row) => (Number.isFinite(value[row]) ? (value[row] as number) : null)),
      sentences: sentencesOf(
        on,
        rare,
        rows.length === 0 ? null : (at[rows.at(-1) as number] as number),
        clock,
        fromEpochMs,
      ),
    }
  })
  return { readings, remarks: asked.remarks, waiting: asked.waiting }
}

function sentencesOf(
  series: Series,
  rare: boolean,
  lastEpochMs: number | null,
  clock: number,
  fromEpochMs: number,
): readonly string[] {
  const document = siteDocument()
  const patience = series.lateAfterMinutes * 60_000 + (rare ? 0 : 1.5 * dayMs)
  const late = lastEpochMs !== null && clock - lastEpochMs > patience
  const verdict = document && verdictSentence(document, [series.id], clock, fromEpochMs)
  return [
    ...(late
      ? [
          `The last value is ${formatAge(clock - lastEpochMs)} old at the clock: late. What is worked out here is of then, not of now.`,
        ]
      : []),
    ...(rare ? [] : ['Means of whole days (UTC); readings of the day that the clock cuts are not in them.']),
    ...(verdict ? [verdict] : []),
  ]
}
