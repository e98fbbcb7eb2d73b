import { expect, test } from 'vitest'
import type { PlacedPoint, Series } from '#contract/site-document.ts'
import {
  headsByHole,
  levelOfDeepest,
  pressuresAt,
  pressureTips,
} from '../../../../web/derived/ground/string-pressures.ts'
import { columnsOf } from '../../../../web/engine/columns.ts'

const point = (id: string, levelMetres: number, retiredAtEpochMs: number | null = null) =>
  ({ id, location: 'PZ-1', levelMetres, retiredAtEpochMs }) as PlacedPoint
const series = (number: number, id: string, unit = 'kPa') =>
  ({ series: number, point: id, measure: 'pore-pressure', unit, lateAfterMinutes: 60 }) as Series
const document = {
  points: [point('A', -1), point('B', -9), point('C', -12, 50)],
  series: [series(1, 'A'), series(2, 'B'), series(3, 'C'), series(4, 'A', 'm')],
  instruments: [],
}

test('tips out of use, and pressures in other units, are left away', () => {
  expect(pressureTips(document, 100).map(({ series: { series: number } }) => number)).toEqual([1, 2])
  expect(pressureTips(document, 40)).toHaveLength(3)
  const ended = document.series.map((one) => (one.series === 2 ? { ...one, endedAtEpochMs: 60 } : one))
  expect(pressureTips({ ...document, series: ended }, 100)).toHaveLength(1)
})

test('a tip without a reading has none and is late: no nought stands for it', () => {
  const tips = pressureTips(document, 100)
  const columns = columnsOf(1, {
    series: Float64Array.of(2),
    value: Float64Array.of(88.29),
    since_value: Float64Array.of(Number.NaN),
    last_at_ms: Float64Array.of(100),
  })
  const read = pressuresAt(columns, tips, 100)
  expect(read).toMatchObject([
    { id: 'A', startKpa: null, nowKpa: null, late: true },
    { id: 'B', startKpa: null, nowKpa: 88.29, late: false },
  ])
  expect(levelOfDeepest(read, 9.81)).toBeCloseTo(0, 9)
  expect(pressuresAt(columns, tips, 100 + 61 * 60_000)[1]?.late).toBe(true)
  expect(levelOfDeepest(pressuresAt(columns, tips, 100 + 61 * 60_000), 9.81)).toBeNull()
})

test('two tips of one hole are one well with their mean head; a late one of them is left out of it', () => {
  const tips = pressureTips(
    {
      points: [
        { ...point('A', -1), eastingMetres: 5, northingMetres: 6 },
        { ...point('B', -9), eastingMetres: 5, northingMetres: 6 },
      ],
      series: [series(1, 'A'), series(2, 'B')],
      instruments: [],
    },
    100,
  )
  const read = (late: boolean) => [
    { id: 'A', levelMetres: -1, startKpa: null, nowKpa: 9.81, late },
    { id: 'B', levelMetres: -9, startKpa: null, nowKpa: 78.48, late: false },
  ]
  expect(headsByHole(tips, read(false), 9.81)).toEqual([
    { id: 'A and B', eastingMetres: 5, northingMetres: 6, headMetres: expect.closeTo(-0.5, 9), late: false },
  ])
  expect(headsByHole(tips, read(true), 9.81)[0]).toMatchObject({ id: 'B', headMetres: expect.closeTo(-1, 9) })
})
