import { expect, it } from 'vitest'
import type { Resolution } from '#contract/slice-columns.ts'
import type { HistorySeries } from '../../../../web/views/time-history/history-props.ts'
import { readHistory, readoutAge } from '../../../../web/views/time-history/history-readout.ts'
import { madeHistory } from './made-history.ts'

const [hourMs, dayMs] = [3_600_000, 86_400_000]
const series = madeHistory().series[0] as HistorySeries
const weekly = { ...series, intervalMinutes: 10_080 }

/** Age told of one mean: where it stands and when its last reading was, days, at a clock in days. */
function age(resolution: Resolution, [at, last]: readonly [number, number], clock: number, of = series) {
  const one = (value: number) => Float64Array.of(value)
  const trace = {
    series: series.series,
    resolution,
    atEpochMs: one(at * dayMs),
    lastAtEpochMs: one(last * dayMs),
    value: one(13.4),
    low: one(13.4),
    high: one(13.4),
    count: one(1),
    quality: one(0),
    flags: one(0),
  }
  const readout = readHistory(of, trace, clock * dayMs)
  return [readoutAge(readout, clock * dayMs), readout.old] as const
}

it('tells the age of a survey by the week, though it is not late and drawn by the day', () => {
  expect(age('day', [10, 10], 16, weekly)).toEqual(['6 d', false])
  expect(age('hour', [10, 10], 16, weekly)).toEqual(['6 d', false])
})

it('tells of a day or hour that is over when the last reading in it was taken, not where its mean stands', () => {
  expect(age('day', [10.5, 10 + 23 / 24], 11.5)[0]).toBe('13 h')
  expect(age('hour', [10 + 0.5 / 24, 10 + 0.75 / 24], 10 + 1.5 / 24)[0]).toBe('45 min')
})

it('tells the age of the last reading on the clock’s own day where none was taken after the clock', () => {
  expect(age('day', [10.5, 10 + 14 / 24], 10 + 20 / 24)[0]).toBe('6 h')
})

it('says of a mean that holds readings after the clock that it stands for this hour or day', () => {
  expect(age('day', [10.5, 10 + 23 / 24], 10.75)[0]).toBe('this day')
  expect(age('hour', [10 + 0.5 / 24, 10 + 0.9 / 24], 10 + 0.75 / 24)[0]).toBe('this hour')
})

it('counts from where a row stands when nothing else is known of it, and says nothing of no row', () => {
  const trace = madeHistory().traces[0]
  expect(readoutAge(readHistory(series, trace, 12.5 * hourMs), 12.5 * hourMs)).toBe('30 min')
  expect(readoutAge(readHistory(series, undefined, 12.5 * hourMs), 12.5 * hourMs)).toBe('–')
})
