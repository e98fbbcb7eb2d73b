import { expect, it } from 'vitest'
import { greatestDeviation } from '#domain/ground/surface-by-kriging.ts'

const points = [1, 2, 3, 4].map((value, at) => ({
  id: `P${at}`,
  eastingMetres: 10 * at,
  northingMetres: 0,
  value,
  standardUncertainty: 0.3,
  late: false,
}))
const [first] = points as [(typeof points)[number]]

it('is seven tenths of the spread of the points that a surface is drawn through, and of no other', () => {
  const limit = 0.7 * Math.sqrt(5 / 3)
  expect(greatestDeviation(points)).toBeCloseTo(limit, 12)
  const leftOut = [
    { ...first, value: 900, eastingMetres: Number.NaN },
    { ...first, value: 900, standardUncertainty: -1 },
    { ...first, value: 900, late: true },
    { ...first, value: Number.NaN },
    { ...first, value: null },
  ]
  expect(greatestDeviation([...points, ...leftOut])).toBeCloseTo(limit, 12)
})

it('is none of too few points, or of one value', () => {
  expect(greatestDeviation(points.slice(0, 2))).toBeNull()
  expect(greatestDeviation(points.map((point) => ({ ...point, value: 2 })))).toBeNull()
})
