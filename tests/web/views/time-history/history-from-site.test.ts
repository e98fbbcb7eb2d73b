import { expect, test } from 'vitest'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'
import {
  companionChoices,
  historyHolds,
  historySeries,
  historyTraces,
} from '../../../../web/views/time-history/history-from-site.ts'

const series = {
  series: 7,
  id: 'PZ-09C/pore-pressure',
  point: 'PZ-09C',
  measure: 'pore-pressure',
  unit: 'kPa',
  decimals: 2,
  intervalMinutes: 60,
} as Series
const document = {
  facts: { levelNames: ['Watch'] },
  triggerLevels: [
    { series: series.id, level: 1, value: 150, direction: 'above', validFrom: 5, validUntil: null },
    { series: 'other', level: 1, value: 1, direction: 'above', validFrom: 5, validUntil: null },
    { series: series.id, level: 2, value: 160, direction: 'above', validFrom: 5, validUntil: null },
  ],
  holdPoints: [
    {
      id: 'HP-9',
      stage: 'dig',
      series: series.id,
      direction: 'at-most',
      value: 121.6,
      statistic: 'week-mean',
    },
  ],
  stages: [{ id: 'dig', name: 'Digging', startsAt: 99, endsAt: null }],
  series: [
    series,
    { ...series, series: 8, id: 'RG-9/rainfall', point: 'RG-9', measure: 'rainfall', unit: 'mm' },
  ],
  points: [
    { id: 'PZ-09C', kind: 'piezometer' },
    { id: 'RG-9', kind: 'rain-gauge' },
  ],
  checkLimits: [],
  verdicts: [],
  predictions: [],
  approvals: [],
  verdictWithdrawals: [],
} as unknown as SiteDocument

test('an answer is parted by series, in its order, nothing lost', () => {
  const five = (values: number[]) => Float64Array.from(values)
  const columns = columnsOf(5, {
    series: five([3, 3, 7, 7, 7]),
    at_ms: five([1, 2, 1, 2, 3]),
    last_at_ms: five([1.2, 2.2, 1.3, 2.3, 3.1]),
    value: five([10, 11, 12, 13, 14]),
    low: five([9, 10, 11, 12, 13]),
    high: five([11, 12, 13, 14, 15]),
    n: five([2, 2, 2, 2, 1]),
    quality: five([0, 0, 8, 0, 0]),
    flags: five([0, 0, 0, 16, 0]),
  })
  const traces = historyTraces(columns, 'hour')
  expect(traces.map((trace) => [trace.series, [...trace.value], [...trace.count]])).toEqual([
    [3, [10, 11], [2, 2]],
    [7, [12, 13, 14], [2, 2, 1]],
  ])
  expect(traces.map((trace) => [...(trace.lastAtEpochMs ?? [])])).toEqual([
    [1.2, 2.2],
    [1.3, 2.3, 3.1],
  ])
  expect(historyTraces(columnsOf(0, { series: five([]) }), 'raw')).toEqual([])
})

test('its own levels only, by the names of the project, else by number', () => {
  expect(historySeries(document, series).levels.map((level) => [level.name, level.value])).toEqual([
    ['Watch', 150],
    ['Level 2', 160],
  ])
})

test('levels on something else than the value are not drawn, and one for a stage while that is on', () => {
  const [first] = document.triggerLevels
  const triggerLevels = [
    { ...first, watches: 'rate', windowMinutes: 60, value: 3 },
    { ...first, watches: 'silence', value: 120 },
    { ...first, stage: 'dig' },
  ] as SiteDocument['triggerLevels']
  expect(historySeries({ ...document, triggerLevels }, series).levels).toMatchObject([
    { value: 150, validFromEpochMs: 99, validUntilEpochMs: null },
  ])
})

test('a condition for a stage says what of, how much and until when', () => {
  expect(historyHolds(document, [series])).toEqual([
    {
      series: 7,
      value: 121.6,
      untilEpochMs: 99,
      sentence: 'Before “Digging”: mean of a week at most 121.6 kPa',
    },
  ])
  expect(historyHolds(document, [])).toEqual([])
})

test('only what the site measures can be laid below', () => {
  expect(
    companionChoices(document).map((choice) => [choice.name, choice.series.series, choice.drawnAs]),
  ).toEqual([['Rain', 8, 'bars']])
})
