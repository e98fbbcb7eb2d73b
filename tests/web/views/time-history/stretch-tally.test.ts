import { expect, test } from 'vitest'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { tallyStretch } from '../../../../web/views/time-history/stretch-tally.ts'
import { hourly } from './made-history.ts'

const hourMs = 3_600_000
const level = (number: number, value: number, validFrom = 0) =>
  ({ level: number, value, direction: 'above', validFrom, validUntil: null }) as TriggerLevel
const stretch = (from: number, until: number) => ({
  fromEpochMs: from * hourMs,
  untilEpochMs: until * hourMs,
})
const trace = hourly(1, [1, 2, null, 8, 12, undefined, 3])

test('readings, marks and levels of a stretch, its end left out', () => {
  const marked = { ...trace, flags: Float64Array.from(trace.flags, (_, row) => (row === 1 ? 4 : 0)) }
  expect(tallyStretch(marked, stretch(1, 4), [level(1, 8), level(2, 12)])).toEqual({
    resolution: 'raw',
    readings: 3,
    withoutValue: 1,
    marked: 1,
    reached: { level: 1, times: 1, firstEpochMs: 3 * hourMs },
    watched: true,
  })
  expect(tallyStretch(trace, stretch(1, 5), [level(1, 8), level(2, 12)]).reached).toEqual({
    level: 2,
    times: 2,
    firstEpochMs: 3 * hourMs,
  })
})

test('only levels in force count, and a stretch that none watches says so', () => {
  const late = [level(1, 1, 4 * hourMs)]
  expect(tallyStretch(trace, stretch(0, 4), late)).toMatchObject({ reached: null, watched: false })
  expect(tallyStretch(trace, stretch(0, 5), late)).toMatchObject({ reached: { times: 1 }, watched: true })
})

test('hours are counted by the readings in them, and their lowest and highest are held against levels', () => {
  const hours = {
    ...trace,
    resolution: 'hour' as const,
    high: Float64Array.from(trace.high, (value) => value + 5),
    count: Float64Array.from(trace.count, (count) => count * 4),
  }
  expect(tallyStretch(hours, stretch(0, 2), [level(1, 7)])).toMatchObject({
    readings: 8,
    withoutValue: null,
    reached: { level: 1, times: 1, firstEpochMs: hourMs },
  })
})
