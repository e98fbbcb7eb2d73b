import { describe, expect, test } from 'vitest'
import type { PlacedInstrument, PlacedPoint, Series } from '#contract/site-document.ts'
import { reviewTraverse } from '#domain/reduction/review-traverse.ts'
import { correctedDeflections, traverseFigures } from '../../../web/derived/figures/traverse-figure.ts'
import { casingFaces, seriesOfFaces, surveysOf } from '../../../web/derived/traverse-surveys.ts'
import { columnsOf } from '../../../web/engine/columns.ts'

const faces = ['face-a0', 'face-a180'] as const
const instrument = {
  id: 'X',
  kind: 'traversed-inclinometer',
  fixedEnd: 'toe',
  stillBelowMetres: 1,
} as unknown as PlacedInstrument
const depths = [2.5, 0.5, 1.5, 3.5]
const points = depths.map((depthMetres, at) => ({
  id: `X-${at}`,
  instrument: 'X',
  depthMetres,
  gaugeLengthMetres: 1,
  zeroDeviationAMm: 0,
  retiredAtEpochMs: at === 3 ? 100 : null,
})) as unknown as PlacedPoint[]
const series = points.flatMap(({ id }, at) =>
  faces.map((measure, face) => ({ series: 2 * at + face, id: `${id}/${measure}`, point: id, measure })),
) as unknown as Series[]
const casing = (atEpochMs: number) => casingFaces({ points, series }, instrument, 'a', atEpochMs)

/** Rows of an answer: series, instant, value. */
const answer = (rows: readonly (readonly [number, number, number])[]) =>
  columnsOf(rows.length, {
    series: Float64Array.from(rows, ([one]) => one),
    at_ms: Float64Array.from(rows, ([, one]) => one),
    value: Float64Array.from(rows, ([, , one]) => one),
  })

describe('the surveys of a casing', () => {
  test('its intervals stand from the top down, without those that are out of use', () => {
    expect(casing(50)?.casing.intervals.map(({ point }) => point)).toEqual(['X-1', 'X-2', 'X-0', 'X-3'])
    expect(casing(100)?.casing.intervals.map(({ point }) => point)).toEqual(['X-1', 'X-2', 'X-0'])
    expect(casingFaces({ points, series }, instrument, 'b', 50)).toBeNull()
  })

  test('readings fall to their intervals; one that was not read, or has no value, is none and no nought', () => {
    const known = casing(100)
    if (!known) throw new Error('no casing')
    expect(seriesOfFaces(known)).toEqual([2, 3, 4, 5, 0, 1])
    const found = surveysOf(
      known,
      answer([
        [2, 90, 5],
        [3, 90, -5],
        [4, 90, Number.NaN],
        [0, 90, 1],
        [1, 90, -1],
        [2, 60, 4],
      ]),
    )
    expect(found.map(({ atEpochMs }) => atEpochMs)).toEqual([90, 60])
    expect(found[0]?.faces).toEqual([
      { face0: 5, face180: -5 },
      { face0: null, face180: null },
      { face0: 1, face180: -1 },
    ])
  })

  test('a survey that read only the other axis is left away', () => {
    const known = casing(100)
    expect(known && surveysOf(known, answer([[9, 90, 5]]))).toEqual([])
  })
})

describe('the drawing of a survey', () => {
  const known = casing(100)
  const review = reviewTraverse(
    known?.casing ?? { intervals: [], fixedEnd: null, stillBelowMetres: null },
    [
      { face0: 3, face180: -3 },
      { face0: 1, face180: -1 },
      { face0: 1, face180: -1 },
    ],
    [],
  )

  test('what is taken off goes off the deflection of everything beyond', () => {
    expect(correctedDeflections(review.intervals, 'toe', [1, 1, 1])).toEqual([2, 0, 0])
    expect(correctedDeflections(review.intervals, null, [1, 1, 1])).toBeNull()
    expect(correctedDeflections(review.intervals, 'toe', null)).toBeNull()
  })

  test('the deflection is drawn at the ends of its intervals and comes down to nought at the still toe', () => {
    const [, deflection] = traverseFigures(review, {
      title: 'X',
      fixedEnd: 'toe',
      stillBelowMetres: 1,
      taken: null,
      timeZone: 'UTC',
    })
    expect(deflection.curves[0]?.places).toEqual([
      [5, 0],
      [2, 1],
      [1, 2],
      [0, 3],
    ])
  })
})
