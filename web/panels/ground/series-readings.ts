import { createMemo } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
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
  /** True where the last value is too old to say anything of now. */
  readonly late: boolean
}

const dayMs = 86_400_000

/** Readings of a series from an instant to another; null while they are asked for, or nothing is chosen. */
export function createSeriesReadings(
  wanted: () => { series: Series; fromEpochMs: number; untilEpochMs: number } | null,
) {
  const { readings: ofAll, ...asked } = createReadingsOfSeries(() => {
    const on = wanted()
    return on && { ...on, series: [on.series] }
  })
  const readings = createMemo(() => [...(ofAll()?.values() ?? [])][0] ?? null)
  return { readings, ...asked }
}

/** The same of several series, by their numbers; means of days for all where one is read more often than daily. */
export function createReadingsOfSeries(
  wanted: () => { series: readonly Series[]; fromEpochMs: number; untilEpochMs: number } | null,
) {
  const asked = createAnswer(() => {
    const on = wanted()
    if (!on || on.series.length === 0 || !(on.untilEpochMs > on.fromEpochMs)) return null
    const { fromEpochMs, untilEpochMs } = on
    const series = on.series.map((one) => one.series)
    const intervals = on.series.map(({ intervalMinutes }) => intervalMinutes)
    const rare = Math.min(...intervals) >= 1440
    return {
      ...timeHistory({
        fromEpochMs,
        untilEpochMs,
        widthPixels: 1,
        intervalMinutes: Math.max(...intervals),
        series,
        resolution: rare ? 'raw' : 'day',
      }),
      series,
      on: on.series,
      rare,
      clockEpochMs: untilEpochMs,
      fromEpochMs,
      untilEpochMs: rare ? untilEpochMs : Math.floor(untilEpochMs / dayMs) * dayMs,
    }
  })
  const readings = createMemo((): ReadonlyMap<number, SeriesReadings> | null => {
    const answer = asked.answer()
    if (!answer) return null
    const { fromEpochMs, untilEpochMs, on, rare, clockEpochMs: clock } = answer.question
    const [of, at, value] = ['series', 'at_ms', 'value'].map((name) => answer.columns.number(name)) as [
      Float64Array,
      Float64Array,
      Float64Array,
    ]
    // The query gives a bucket beyond each end; a day that the clock cuts would tell of what comes after it.
    const rows = [...at.keys()].filter((row) => {
      const instant = at[row] as number
      return instant >= fromEpochMs && instant <= untilEpochMs
    })
    const rowsOf = groupBy(rows, (row) => of[row] as number)
    return new Map(
      on.map((series) => {
        const own = rowsOf.get(series.series) ?? []
        const last = own.length === 0 ? null : (at[own.at(-1) as number] as number)
        return [
          series.series,
          {
            atEpochMs: own.map((row) => at[row] as number),
            values: own.map((row) => (Number.isFinite(value[row]) ? (value[row] as number) : null)),
            sentences: sentencesOf(series, rare, last, clock, fromEpochMs),
            late: isLate(series, rare, last, clock),
          },
        ]
      }),
    )
  })
  return { readings, remarks: asked.remarks, waiting: asked.waiting }
}

/** A mean of a day stands at its middle, and the day that the clock cuts has none. */
function isLate(series: Series, rare: boolean, lastEpochMs: number | null, clock: number): boolean {
  const patience = series.lateAfterMinutes * 60_000 + (rare ? 0 : 1.5 * dayMs)
  return lastEpochMs === null || clock - lastEpochMs > patience
}

function sentencesOf(
  series: Series,
  rare: boolean,
  lastEpochMs: number | null,
  clock: number,
  fromEpochMs: number,
): readonly string[] {
  const document = siteDocument()
  const late = lastEpochMs !== null && isLate(series, rare, lastEpochMs, clock)
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
