import type { Resolution } from '#contract/slice-columns.ts'
import { markWords } from '#domain/flags/mark-words.ts'
import { qualityNotes } from '../../derived/notes-of-value.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { approvalOfRow, rowApprovalWords } from './approval-of-row.ts'
import type { HistorySeries, HistoryTrace } from './history-props.ts'

/** What a series said at or last before the clock, within the window that is shown. */
export interface Readout {
  readonly series: HistorySeries
  readonly row: number | null
  readonly atEpochMs: number | null
  /** Of an hour or day the instant of its last reading, which may lie after the clock; else as `atEpochMs`. */
  readonly lastAtEpochMs: number | null
  readonly value: number | null
  readonly low: number | null
  readonly high: number | null
  readonly resolution: Resolution
  /** Older than one and a half intervals and buckets: to be shown as not current. */
  readonly old: boolean
  readonly notes: readonly string[]
}

const bucketMinutes = { raw: 0, hour: 60, day: 1440 } as const

export function readHistory(
  series: HistorySeries,
  trace: HistoryTrace | undefined,
  clockEpochMs: number,
): Readout {
  const none = { series, row: null, atEpochMs: null, lastAtEpochMs: null, value: null, low: null, high: null }
  if (!trace) return { ...none, resolution: 'raw', old: true, notes: ['no readings here'] }
  const row = lastAtOrBefore(trace.atEpochMs, clockEpochMs)
  if (row < 0)
    return { ...none, resolution: trace.resolution, old: true, notes: ['no reading before the clock'] }
  const atEpochMs = trace.atEpochMs[row] as number
  const limitMs = 1.5 * Math.max(series.intervalMinutes, bucketMinutes[trace.resolution]) * 60_000
  return {
    series,
    row,
    atEpochMs,
    lastAtEpochMs: finite(trace.lastAtEpochMs?.[row]) ?? atEpochMs,
    value: finite(trace.value[row]),
    low: finite(trace.low[row]),
    high: finite(trace.high[row]),
    resolution: trace.resolution,
    old: clockEpochMs - atEpochMs > limitMs,
    notes: rowNotes(series, trace, row),
  }
}

/**
 * Age of what a readout says, in words: that of its last reading. Only a mean of which a reading lies after the clock, of
 * the hour or day that the clock is in, has none: it stands for all of that hour or day.
 */
export function readoutAge(
  { lastAtEpochMs, resolution }: Pick<Readout, 'lastAtEpochMs' | 'resolution'>,
  clockEpochMs: number,
): string {
  if (lastAtEpochMs === null) return '–'
  if (resolution !== 'raw' && lastAtEpochMs > clockEpochMs) return `this ${resolution}`
  return formatAge(clockEpochMs - lastAtEpochMs)
}

/** What is said about a row: its quality, what the automatic checks marked, and what a person found. */
export function rowNotes(series: HistorySeries, trace: HistoryTrace, row: number): string[] {
  const at = trace.atEpochMs[row] ?? 0
  const verdicts = series.verdicts.filter(
    ({ fromAt, untilAt }) => fromAt <= at && at < (untilAt ?? Number.POSITIVE_INFINITY),
  )
  return [
    ...qualityNotes(trace.quality[row] ?? 0),
    ...markWords(trace.flags[row] ?? 0, series.checkLimits, series.unit, at),
    ...approvalNote(series, trace, row),
    ...verdicts.map(({ verdict, author }) => `${verdict} by ${author}`),
  ]
}

function approvalNote(series: HistorySeries, trace: HistoryTrace, row: number): string[] {
  const found = approvalOfRow(series, trace, row)
  return found === null ? [] : [rowApprovalWords[found]]
}

/** Place of the last instant at or before the one given; −1 where there is none. */
export function lastAtOrBefore(instants: ArrayLike<number>, atEpochMs: number): number {
  let low = 0
  let high = instants.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((instants[middle] as number) <= atEpochMs) low = middle + 1
    else high = middle
  }
  return low - 1
}

const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null
