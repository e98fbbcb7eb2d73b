import { expect, test } from 'vitest'
import { asChangeSince, inOwnPanes } from '../../../../web/derived/review/compared-history.ts'
import { layOutHistory } from '../../../../web/views/time-history/history-layout.ts'
import type { HistorySeries, HistoryTrace } from '../../../../web/views/time-history/history-props.ts'

const hourMs = 3_600_000
const series = (number: number, unit: string): HistorySeries => ({
  series: number,
  name: `S-${number}`,
  measure: 'Settlement',
  unit,
  decimals: 1,
  intervalMinutes: 60,
  levels: [
    { level: 1, name: 'Level 1', value: 5, direction: 'above', validFromEpochMs: 0, validUntilEpochMs: null },
  ],
  checkLimits: null,
  verdicts: [],
})
const trace = (number: number, from: number, values: readonly number[]): HistoryTrace => ({
  series: number,
  resolution: 'hour',
  atEpochMs: Float64Array.from(values, (_, i) => (from + i) * hourMs),
  value: Float64Array.from(values),
  low: Float64Array.from(values, (value) => value - 1),
  high: Float64Array.from(values, (value) => value + 2),
  count: Float64Array.from(values, () => 4),
  quality: new Float64Array(values.length),
  flags: new Float64Array(values.length),
})
const format = (at: number) => `hour ${at / hourMs}`
const all = [series(1, 'mm'), series(2, 'mm'), series(3, 'kPa')]
const panesOf = (history: ReturnType<typeof inOwnPanes>) =>
  layOutHistory(
    {
      fromEpochMs: 0,
      untilEpochMs: 10 * hourMs,
      clockEpochMs: null,
      spanEpochMs: [0, 10 * hourMs],
      timeZone: 'UTC',
      companions: [],
      holds: [],
      stages: [],
      diary: [],
      waiting: false,
      ...history,
    },
    { widthPixels: 800, heightPixels: 900, fontPixels: 13 },
  ).panes

test('each series has a pane of its own with its unit, or all of a unit share one', () => {
  const traces = [trace(1, 0, [1, 2, 3]), trace(2, 0, [5, 5, 5]), trace(3, 0, [9, 8, 7])]
  expect(panesOf(inOwnPanes(all, traces)).map(({ unit }) => unit)).toEqual(['mm', 'mm', 'kPa'])
  expect(panesOf(asChangeSince(all, traces, hourMs, format)).map(({ unit }) => unit)).toEqual(['mm', 'kPa'])
})

test('a change counts from the last value at or before the instant, with lowest and highest', () => {
  const { traces, series: named } = asChangeSince(
    all.slice(0, 1),
    [trace(1, 0, [10, 12, 15])],
    1.5 * hourMs,
    format,
  )
  expect([...(traces[0]?.value ?? [])]).toEqual([-2, 0, 3])
  expect([...(traces[0]?.low ?? [])]).toEqual([-3, -1, 2])
  expect([...(traces[0]?.high ?? [])]).toEqual([0, 2, 5])
  // A level is of the value, not of a change.
  expect(named[0]?.levels).toEqual([])
})

test('what begins later counts from its first value, and what has none is named', () => {
  const { remarks, traces } = asChangeSince(
    all.slice(0, 2),
    [trace(1, 5, [4, 6]), trace(2, 0, [Number.NaN])],
    hourMs,
    format,
  )
  expect([...(traces[0]?.value ?? [])]).toEqual([0, 2])
  expect(traces).toHaveLength(1)
  expect(remarks.join(' ')).toContain('S-1 counts from its first value after that, of hour 5.')
  expect(remarks.join(' ')).toContain('no change of S-2')
})
