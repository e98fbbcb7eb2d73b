import type { HistorySeries, HistoryTrace } from '../../views/time-history/history-props.ts'

/** Series each in a pane of its own, or as their change since an instant in one pane a unit. */
export interface ComparedHistory {
  readonly series: readonly HistorySeries[]
  readonly traces: readonly HistoryTrace[]
  /** Whole sentences: what could not be drawn, and why. */
  readonly remarks: readonly string[]
}

/** Every series under a heading of its own, so that each gets its pane. */
export const inOwnPanes = (
  series: readonly HistorySeries[],
  traces: readonly HistoryTrace[],
): ComparedHistory => ({
  series: series.map((one) => ({ ...one, pane: `${one.name}, ${one.measure.toLowerCase()}` })),
  traces,
  remarks: [],
})

/**
 * Every series less its value at an instant: that of its last reading or bucket at or before it, else of the first after it, which is said.
 * Lowest and highest of a bucket go with it. Levels and envelopes are of values, not of changes, and are left out. A
 * series without a value is left out and named.
 */
export function asChangeSince(
  series: readonly HistorySeries[],
  traces: readonly HistoryTrace[],
  sinceEpochMs: number,
  format: (atEpochMs: number) => string,
): ComparedHistory {
  const remarks: string[] = []
  const shifted = traces.flatMap((trace): readonly HistoryTrace[] => {
    const of = series.find((one) => one.series === trace.series)
    const row = baseRow(trace, sinceEpochMs)
    if (row === null || !of) return []
    const [base, at] = [trace.value[row] as number, trace.atEpochMs[row] as number]
    if (at > sinceEpochMs + of.intervalMinutes * 60_000)
      remarks.push(`${of.name} counts from its first value after that, of ${format(at)}.`)
    const less = (values: Float64Array) => values.map((value) => value - base)
    return [{ ...trace, value: less(trace.value), low: less(trace.low), high: less(trace.high) }]
  })
  const drawn = new Set(shifted.map((trace) => trace.series))
  const without = series.filter((one) => !drawn.has(one.series))
  if (without.length > 0 && traces.length > 0)
    remarks.push(`Without a value there is no change of ${without.map(({ name }) => name).join(', ')}.`)
  return {
    series: series.map((one) => ({
      ...one,
      pane: `Change since ${format(sinceEpochMs)}`,
      levels: [],
      expected: [],
    })),
    traces: shifted,
    remarks,
  }
}

function baseRow({ atEpochMs, value }: HistoryTrace, sinceEpochMs: number): number | null {
  let before: number | null = null
  for (let row = 0; row < atEpochMs.length; row++) {
    if (!Number.isFinite(value[row])) continue
    if ((atEpochMs[row] as number) <= sinceEpochMs) before = row
    else return before ?? row
  }
  return before
}
