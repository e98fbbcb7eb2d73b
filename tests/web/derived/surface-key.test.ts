import { expect, it } from 'vitest'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import { surfaceKey } from '../../../web/derived/surface-key.ts'

const surface = (edges: readonly number[], unit = 'mm'): GroundMap =>
  ({
    slopes: null,
    gradient: null,
    unit,
    lines: [],
    bands: edges.slice(1).map((highMm, at) => ({ lowMm: edges[at] as number, highMm, polygons: [] })),
  }) as unknown as GroundMap

const says = (edges: readonly number[]) => surfaceKey(surface(edges)).map((row) => row.says)

it('has the digits that the step between its bands needs', () => {
  expect(says([-11.7312, -10, -8, -6, -3.9999])).toEqual([
    '−12 to −10 mm',
    '−10 to −8 mm',
    '−8 to −6 mm',
    '−6 to −4 mm',
  ])
  expect(says([0.31, 0.5, 1, 1.5, 1.83])).toEqual([
    '0.3 to 0.5 mm',
    '0.5 to 1.0 mm',
    '1.0 to 1.5 mm',
    '1.5 to 1.8 mm',
  ])
  // Three digits would say 105 to 106 and 106 to 106.
  expect(says([105, 105.5, 106, 106.4])).toEqual([
    '105.0 to 105.5 mm',
    '105.5 to 106.0 mm',
    '106.0 to 106.4 mm',
  ])
})

it('keeps the ends of a thin band at the edge apart', () => {
  expect(says([-10.2, -10, -8, -7.8])).toEqual(['−11 to −10 mm', '−10 to −8 mm', '−8 to −7 mm'])
})

it('takes its digits from the breadth of the bands where one edge stands between them, or none', () => {
  expect(says([-0.31, 0, 0.42])).toEqual(['−0.3 to 0.0 mm', '0.0 to 0.4 mm'])
  expect(says([-3.9999, -3.2])).toEqual(['−4.0 to −3.2 mm'])
  expect(says([-3.9999, -3.9999])).toEqual(['−4 mm'])
})

it('says the same of slopes', () => {
  const slopes = { bands: surface([0, 0.1, 0.2, 0.2499]).bands, lines: [], hatches: [] }
  const rows = surfaceKey({ ...surface([]), slopes } as unknown as GroundMap)
  expect(rows.map((row) => row.says)).toEqual([
    '0.0 to 0.1 mm/m, up to 1:10000',
    '0.1 to 0.2 mm/m, up to 1:5000',
    '0.2 to 0.3 mm/m, up to 1:4000',
  ])
})
