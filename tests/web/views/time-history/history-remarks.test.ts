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

const receivedAt = (epochHours: number) => ({
  firstReceivedEpochMs: epochHours * 3_600_000,
  lastReceivedEpochMs: (epochHours + 2) * 3_600_000,
})

test('what had not come by the clock is counted as far as it was taken, with when it came, and never joined to the line', () => {
  const early = hourly(1, [0, 1, 2])
  const rest = hourly(1, [...Array(3).fill(undefined), 3, 4, 5, ...Array(10).fill(undefined), 16])
  const props = madeHistory({ traces: [early], later: [{ ...rest, ...receivedAt(30) }] })
  const [told] = historyRemarks(props).filter((sentence) => sentence.includes('had not come'))
  // The reading of hour 16 was not taken by the clock, 12:30.
  expect(told).toBe(
    '3 readings of PZ-09A that were taken by Thu 1 Jan 1970 12:30 had not come by then (broken line, hatched at the head): they came from Fri 2 Jan 1970 06:00 to Fri 2 Jan 1970 08:00.',
  )
  expect(historyRemarks(props)).toContain('1 of 1 series have no current reading at Thu 1 Jan 1970 12:30.')
  expect(historyRemarks(madeHistory({ later: [] })).join()).toContain('had come by then.')
  expect(historyRemarks(madeHistory()).join()).not.toContain('come by then')
})
