import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cumulativeDeflection } from '../../../web/derived/cumulative-deflection.ts'

const segments = (increments: readonly (number | null)[]) =>
  increments.map((incrementMillimetres, place) => ({
    depthMetres: 1 + 2 * place,
    gaugeLengthMetres: 2,
    incrementMillimetres,
  }))

describe('added up from the toe', () => {
  test('each top carries everything below it; by hand: 3 segments of 1, 2 and 4 mm', () => {
    expect(cumulativeDeflection(segments([1, 2, 4]), 'toe')).toEqual({
      complete: true,
      places: [
        { depthMetres: 0, millimetres: 7 },
        { depthMetres: 2, millimetres: 6 },
        { depthMetres: 4, millimetres: 4 },
        { depthMetres: 6, millimetres: 0 },
      ],
    })
  })

  test('above a segment without a value nothing is known', () => {
    const { places, complete } = cumulativeDeflection(segments([1, null, 4]), 'toe')
    expect(complete).toBe(false)
    expect(places).toEqual([
      { depthMetres: 4, millimetres: 4 },
      { depthMetres: 6, millimetres: 0 },
    ])
  })
})

test('from either end the shape is the same but for a shift', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 20 }),
      (all) => {
        const toe = cumulativeDeflection(segments(all), 'toe').places
        const head = cumulativeDeflection(segments(all), 'head').places
        const shift = toe[0]?.millimetres ?? 0
        toe.forEach((place, index) => {
          expect(head[index]?.depthMetres).toBeCloseTo(place.depthMetres, 9)
          expect(head[index]?.millimetres).toBeCloseTo(place.millimetres - shift, 6)
        })
      },
    ),
    { seed: 3 },
  )
})

test('a missing segment stops the sum: a gap of 2 m is not bridged', () => {
  const [first, , third] = segments([1, 2, 4])
  const { places, complete } = cumulativeDeflection(
    [first, third].flatMap((one) => one ?? []),
    'toe',
  )
  expect(complete).toBe(false)
  expect(places.map((place) => place.depthMetres)).toEqual([4, 6])
})

test('no segments give no places', () => {
  expect(cumulativeDeflection([], 'toe')).toEqual({ places: [], complete: false })
})
