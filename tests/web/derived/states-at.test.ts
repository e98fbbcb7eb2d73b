import { expect, test } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { statesAt } from '../../../web/derived/states-at.ts'
import { columnsOf } from '../../../web/engine/columns.ts'

const hourMs = 3_600_000
const series = (number: number): Series => ({
  series: number,
  id: `P${number}/settlement`,
  point: `P${number}`,
  measure: 'settlement',
  unit: 'mm',
  decimals: 1,
  standardUncertainty: 0.7,
  intervalMinutes: 60,
  lateAfterMinutes: 180,
  critical: false,
  positiveMeans: 'downwards',
})
const level = {
  series: 'P1/settlement',
  level: 1,
  direction: 'above',
  value: 8,
  validFrom: 0,
  validUntil: null,
}

test('values are held against levels and age, marked or not; a series without a row has no current data', () => {
  const columns = columnsOf(2, {
    series: Float64Array.of(1, 2),
    last_at_ms: Float64Array.of(99 * hourMs, 50 * hourMs),
    value: Float64Array.of(10, 3),
    quality: Float64Array.of(0, 8),
    flags: Float64Array.of(48, 0),
  })
  const states = statesAt(
    columns,
    [series(1), series(2), series(3)],
    [level as unknown as TriggerLevel],
    100 * hourMs,
  )
  expect(states.map((state) => [state.series, state.level, state.late, state.value])).toEqual([
    [1, 1, false, 10],
    [2, null, true, 3],
    [3, null, true, null],
  ])
  expect(states[1]?.quality).toBe(8)
  // The first fails a check and stands at its level none the less.
  expect(states.map(({ flags }) => flags)).toEqual([48, 0, 0])
})
