import type { HistoryTrace, TimeHistoryProps } from '../../../../web/views/time-history/history-props.ts'

const hourMs = 3_600_000

/** An hourly trace from the epoch: one value an hour, null without value, undefined not read. */
export function hourly(series: number, values: readonly (number | null | undefined)[]): HistoryTrace {
  const rows = values.flatMap((value, hour) => (value === undefined ? [] : [{ hour, value }]))
  const value = Float64Array.from(rows, (row) => row.value ?? Number.NaN)
  return {
    series,
    resolution: 'raw',
    atEpochMs: Float64Array.from(rows, (row) => row.hour * hourMs),
    value,
    low: value,
    high: value,
    count: Float64Array.from(value, (one) => (Number.isFinite(one) ? 1 : 0)),
    quality: new Float64Array(rows.length),
    flags: new Float64Array(rows.length),
  }
}

export const madeHistory = (changes: Partial<TimeHistoryProps> = {}): TimeHistoryProps => ({
  fromEpochMs: 0,
  untilEpochMs: 24 * hourMs,
  clockEpochMs: 12.5 * hourMs,
  spanEpochMs: [0, 240 * hourMs],
  timeZone: 'UTC',
  series: [
    {
      series: 1,
      name: 'PZ-09A',
      measure: 'Pore pressure',
      unit: 'kPa',
      decimals: 2,
      intervalMinutes: 60,
      levels: [],
      checkLimits: [],
      verdicts: [],
    },
  ],
  companions: [],
  traces: [
    hourly(
      1,
      Array.from({ length: 24 }, (_, hour) => hour),
    ),
  ],
  holds: [],
  stages: [],
  diary: [],
  remarks: [],
  waiting: false,
  ...changes,
})
