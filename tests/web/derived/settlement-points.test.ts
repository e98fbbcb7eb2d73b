import { expect, test } from 'vitest'
import type { PlacedPoint, Series } from '#contract/site-document.ts'
import {
  pointUncertaintySentence,
  settlementPoints,
  settlementSeries,
} from '../../../web/derived/settlement-points.ts'
import { columnsOf } from '../../../web/engine/columns.ts'

const dayMs = 86_400_000
const series = (number: number, measure = 'settlement') =>
  ({
    series: number,
    id: `SP-9${number}/${measure}`,
    point: `SP-9${number}`,
    measure,
    unit: 'mm',
    standardUncertainty: 0.7,
    lateAfterMinutes: 14_400,
  }) as Series
const point = (number: number, retiredAtEpochMs: number | null = null) =>
  ({ id: `SP-9${number}`, eastingMetres: number, northingMetres: 0, retiredAtEpochMs }) as PlacedPoint
const columns = columnsOf(3, {
  series: Float64Array.of(1, 2, 4),
  last_at_ms: Float64Array.of(98 * dayMs, 60 * dayMs, 99 * dayMs),
  value: Float64Array.of(12, 5, 3),
  since_at_ms: Float64Array.of(40 * dayMs, 40 * dayMs, Number.NaN),
  since_value: Float64Array.of(4, 1, Number.NaN),
})
const all = [series(1), series(2), series(3), series(4)]
const points = [point(1), point(2), point(3, 50 * dayMs), point(4)]
const site = { points, series: all, instruments: [] }

test('values, lateness and uncertainty; a retired point is left away', () => {
  const found = settlementPoints(columns, all, site, 100 * dayMs, false)
  expect(found.map((one) => [one.id, one.valueMm, one.late, one.standardUncertaintyMm])).toEqual([
    ['SP-91', 12, false, 0.7],
    ['SP-92', 5, true, 0.7],
    ['SP-94', 3, false, 0.7],
  ])
})

test('so is one that ended with a place that it needs: it is not silent', () => {
  const ended = all.map((one) => (one.series === 2 ? { ...one, endedAtEpochMs: 70 * dayMs } : one))
  const of = (atEpochMs: number) =>
    settlementPoints(columns, ended, { ...site, series: ended }, atEpochMs, false).map(({ id }) => id)
  expect(of(100 * dayMs)).toEqual(['SP-91', 'SP-94'])
  expect(of(69 * dayMs)).toContain('SP-92')
})

test('a change is the difference, less certain by the root of two, unknown without the earlier value', () => {
  const found = settlementPoints(columns, all, site, 100 * dayMs, true)
  expect(found[0]?.valueMm).toBe(8)
  expect(found[0]?.standardUncertaintyMm).toBeCloseTo(0.99, 2)
  expect(found[2]?.valueMm).toBeNull()
})

test('a change between readings under one calibration holds only what they do not share', () => {
  const since = columnsOf(1, {
    series: Float64Array.of(1),
    last_at_ms: Float64Array.of(98 * dayMs),
    value: Float64Array.of(12),
    since_at_ms: Float64Array.of(40 * dayMs),
    since_value: Float64Array.of(4),
  })
  const changeUnder = (commonSince: number, independent: number | null) =>
    settlementPoints(
      since,
      [
        {
          ...series(1),
          uncertaintyPeriods: [
            { fromEpochMs: 0, commonSinceEpochMs: 0, standardUncertainty: 0.7, independent: 0.2 },
            {
              fromEpochMs: 50 * dayMs,
              commonSinceEpochMs: commonSince,
              standardUncertainty: 0.7,
              independent,
            },
          ],
        },
      ],
      site,
      100 * dayMs,
      true,
    )[0]?.standardUncertaintyMm
  expect(changeUnder(0, 0.2)).toBeCloseTo(0.2 * Math.SQRT2, 12)
  expect(changeUnder(0, null)).toBeCloseTo(0.7 * Math.SQRT2, 12)
  expect(changeUnder(50 * dayMs, 0.2)).toBeCloseTo(0.7 * Math.SQRT2, 12)
})

test('how well points are known is said, with the wide side where nothing is known to cancel', () => {
  const told = (change: boolean) =>
    pointUncertaintySentence(settlementPoints(columns, all, site, 100 * dayMs, change), change)
  expect(told(false)).toBe('Standard uncertainty of a point: 0.7 mm.')
  expect(told(true)).toContain('a change: 0.99 mm; at 2 of 2 points it is not known what both readings share')
  expect(pointUncertaintySentence([], true)).toBeNull()
})

test('only settlements in millimetres at the surface make it: an anchor far below is left away', () => {
  expect(settlementSeries([series(1), series(2, 'tilt')], points)).toHaveLength(1)
  const anchor = { ...point(2), depthMetres: 9 }
  expect(settlementSeries([series(1), series(2)], [point(1), anchor])).toEqual([series(1)])
})
