import { expect, test } from 'vitest'
import { historyRemarks } from '../../../../web/views/time-history/history-remarks.ts'
import { hourly, madeHistory } from './made-history.ts'

test('a series that fell silent before the clock is counted', () => {
  const sentences = historyRemarks(madeHistory({ traces: [hourly(1, [1, 2, 3])] }))
  expect(sentences).toContain('1 of 1 series have no current reading at Thu 1 Jan 1970 12:30.')
})

test('of a clock outside the dates nothing is said but that', () => {
  const sentences = historyRemarks(madeHistory({ clockEpochMs: 99 * 3_600_000 }))
  expect(sentences).toEqual([
    'The clock, Mon 5 Jan 1970 03:00, lies outside these dates.',
    'Every reading is drawn.',
  ])
})

test('series without readings are named once nothing is awaited', () => {
  expect(historyRemarks(madeHistory({ traces: [] }))[0]).toBe('No readings between these dates: PZ-09A.')
  expect(historyRemarks(madeHistory({ traces: [], waiting: true }))).toEqual([])
})

test('late receipt is said in words, with the names', () => {
  const trace = hourly(
    1,
    Array.from({ length: 24 }, (_, hour) => hour),
  )
  trace.quality[3] = 8
  expect(historyRemarks(madeHistory({ traces: [trace] }))[0]).toContain('readings of PZ-09A')
})

test('marks of checks are counted by what was found and its limit, verdicts beside them', () => {
  const trace = hourly(
    1,
    Array.from({ length: 24 }, (_, hour) => hour),
  )
  trace.flags.set([16, 16, 1024], 3)
  const [series] = madeHistory().series
  if (!series) throw new Error('no series')
  const limit = {
    id: 'CL-1',
    series: null,
    measure: 'pore-pressure' as const,
    check: 'spike' as const,
    suspectBelow: null,
    suspectAbove: 3,
    failBelow: null,
    failAbove: 10,
    against: null,
    reason: 'scatter',
    author: 'A. Reed',
  }
  const verdict = {
    id: 'V-1',
    series: 'PZ-09A/pore-pressure',
    fromAt: 0,
    untilAt: null,
    verdict: 'doubtful' as const,
    reason: 'drifts from its neighbour',
    alternatives: 'drawdown',
    author: 'B. Lund',
    at: 0,
  }
  const sentences = historyRemarks(
    madeHistory({ traces: [trace], series: [{ ...series, checkLimits: [limit], verdicts: [verdict] }] }),
  ).join(' ')
  expect(sentences).toContain('PZ-09A: suspect: spike (above 3 kPa), 2 readings; suspect: clock (received')
  expect(sentences).toContain('PZ-09A doubtful by B. Lund, drifts from its neighbour')
})
