import { expect, it } from 'vitest'
import type { GroundMap } from '#domain/ground/ground-map.ts'
import type { SlopeMap } from '#domain/ground/slope-map.ts'
import { toldAreaText } from '../../../web/derived/slope-text.ts'
import { surfaceDrawing, surfaceNote } from '../../../web/derived/surface-drawing.ts'

const contours: GroundMap = {
  slopes: null,
  gradient: null,
  valuesAt: [],
  method: 'Linear between points.',
  unit: 'mm',
  step: null,
  deviation: null,
  notes: ['A note.'],
  check: null,
  drawnBy: 'kriging',
  variogram: null,
  volume: { above: 0, below: 0, net: 0, areaSquareMetres: 0 },
  steepest: null,
  section: [],
  pointsUsed: ['SP-1', 'SP-2', 'SP-3'],
  pointsLeftOut: [
    { id: 'SP-4', reason: 'no current value' },
    { id: 'SP-5', reason: 'no current value' },
  ],
  pointsMerged: [],
  mask: [
    [
      [0, 0],
      [1, 0],
      [0, 1],
      [0, 0],
    ],
  ],
  levelsMm: [5],
  lines: [
    {
      level: 5,
      points: [
        [0, 0],
        [1, 1],
      ],
      certain: false,
    },
  ],
  bands: [
    {
      lowMm: -3,
      highMm: 5,
      polygons: [
        [
          [
            [0, 0],
            [1, 0],
            [0, 1],
            [0, 0],
          ],
        ],
      ],
    },
    { lowMm: 5, highMm: 9, polygons: [] },
  ],
}

it('states method, unit, numbers of points and why some were left out', () => {
  const note = surfaceNote(contours, { what: 'Settlement at noon', sense: 'positive is settlement' })
  expect(note).toContain('Settlement at noon, mm, positive is settlement. Linear between points.')
  expect(note).toContain('3 points used, 2 left out (SP-4, SP-5: no current value)')
  expect(note).toContain('A note.')
  expect(note).not.toContain('deviation')
})

it('places lines, bands and outline, and states the range that colour is scaled by', () => {
  const drawing = surfaceDrawing(
    contours,
    { what: 'x', sense: 'y', colouring: 'movement' },
    ([east, north]) => [east + 10, north + 20],
  )
  expect(drawing.lines).toEqual([
    {
      value: 5,
      certain: false,
      path: [
        [10, 20],
        [11, 21],
      ],
    },
  ])
  expect(drawing.bands).toHaveLength(1)
  expect(drawing.bands[0]?.middle).toBe(1)
  expect([drawing.lowest, drawing.highest]).toEqual([-3, 9])
  expect(drawing.outline[0]?.[1]).toEqual([11, 20])
})

it('calls ground of which no slope is told not known, never level', () => {
  const slopes: SlopeMap = {
    aspect: 'slope',
    overMetres: 10,
    bands: [],
    lines: [],
    outline: [],
    hatches: [],
    areas: [],
    untoldSquareMetres: 3400,
    steepest: null,
    guidance: [],
    notes: [],
  }
  const { note } = surfaceDrawing(
    { ...contours, slopes },
    { what: 'x', sense: 'y', colouring: 'movement' },
    ([east, north]) => [east, north],
  )
  expect(note).toMatch(/^Slope: nothing can be told here: not known, not level; all of it is hatched\./)
  expect(toldAreaText(0, 3400)).toBe('0 m² told; 3400 m² not known')
})
