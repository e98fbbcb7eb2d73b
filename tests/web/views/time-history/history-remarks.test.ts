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
