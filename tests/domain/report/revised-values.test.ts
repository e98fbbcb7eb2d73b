import fc from 'fast-check'
import { expect, test } from 'vitest'
import { revisedValues as revised, type SeriesValues } from '#domain/report/revised-values.ts'

type Row = readonly [series: number, atEpochMs: number, value: number]

const values = (rows: readonly Row[]) => ({
  series: Float64Array.from(rows, ([series]) => series),
  atEpochMs: Float64Array.from(rows, ([, at]) => at),
  value: Float64Array.from(rows, ([, , value]) => value),
})
const oneDecimal = () => 1

/** Without the rows, which `rows of both tellings are named` looks at. */
const revisedValues = (before: SeriesValues, after: SeriesValues, decimalsOf: (series: number) => number) =>
  revised(before, after, decimalsOf).map(({ beforeRow: _, afterRow: __, ...rest }) => rest)

test('rows of both tellings are named', () => {
  const found = revised(
    values([
      [1, 0, 1],
      [1, 10, 2],
    ]),
    values([
      [1, 10, 3],
      [1, 20, 4],
    ]),
    oneDecimal,
  )
  expect(found.map(({ beforeRow, afterRow }) => [beforeRow, afterRow])).toEqual([
    [0, null],
    [1, 0],
    [null, 1],
  ])
})

test('every value that differs is told, with what it was and is', () => {
  const before = values([
    [1, 0, 5],
    [1, 10, 5.1],
    [1, 20, Number.NaN],
    [2, 0, 7],
    [2, 10, 8],
  ])
  const after = values([
    [1, 0, 5],
    [1, 10, 5.2],
    [1, 20, 6],
    [1, 30, 9],
    [2, 10, Number.NaN],
  ])
  expect(revisedValues(before, after, oneDecimal)).toEqual([
    { series: 1, atEpochMs: 10, before: 5.1, after: 5.2 },
    { series: 1, atEpochMs: 20, before: null, after: 6 },
    { series: 1, atEpochMs: 30, before: null, after: 9 },
    { series: 2, atEpochMs: 0, before: 7, after: null },
    { series: 2, atEpochMs: 10, before: 8, after: null },
  ])
})

test('a change below the stated decimals is none', () => {
  const [before, after] = [
    values([
      [1, 0, 5.11],
      [2, 0, 5.11],
    ]),
    values([
      [1, 0, 5.14],
      [2, 0, 5.14],
    ]),
  ]
  expect(revisedValues(before, after, (series) => series)).toEqual([
    { series: 2, atEpochMs: 0, before: 5.11, after: 5.14 },
  ])
})

test('against a plain comparison over every instant', () => {
  const row = fc.tuple(
    fc.integer({ min: 1, max: 3 }),
    fc.integer({ min: 0, max: 8 }),
    fc.oneof(
      fc.constant(Number.NaN),
      fc.integer({ min: -20, max: 20 }).map((tenths) => tenths / 10),
    ),
  )
  const rows = fc
    .uniqueArray(row, { selector: ([series, at]) => `${series} ${at}`, maxLength: 20 })
    .map((list) => list.toSorted((one, other) => one[0] - other[0] || one[1] - other[1]))
  fc.assert(
    fc.property(rows, rows, (before, after) => {
      const find = (list: readonly Row[], series: number, at: number) => {
        const value = list.find((one) => one[0] === series && one[1] === at)?.[2] ?? Number.NaN
        return Number.isNaN(value) ? null : value
      }
      const expected = [1, 2, 3].flatMap((series) =>
        [0, 1, 2, 3, 4, 5, 6, 7, 8].flatMap((atEpochMs) => {
          const [was, is] = [find(before, series, atEpochMs), find(after, series, atEpochMs)]
          return was === is ? [] : [{ series, atEpochMs, before: was, after: is }]
        }),
      )
      expect(revisedValues(values(before), values(after), oneDecimal)).toEqual(expected)
    }),
    { seed: 7 },
  )
})
