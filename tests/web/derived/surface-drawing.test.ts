import { expect, it } from 'vitest'
import type { Contours } from '#domain/ground/contours.ts'
import { surfaceDrawing, surfaceNote } from '../../../web/derived/surface-drawing.ts'

const contours: Contours = {
  method: 'Linear between points.',
  parameters: { longestSideMetres: 40, barriers: 0 },
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
      levelMm: 5,
      points: [
        [0, 0],
        [1, 1],
      ],
      closed: false,
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
  const note = surfaceNote(contours, 'Settlement at noon')
  expect(note).toContain('Settlement at noon, mm, positive is settlement. Linear between points.')
  expect(note).toContain('3 points used, 2 left out (SP-4, SP-5: no current value)')
})

it('places lines, bands and outline, and scales colour by the largest movement either way', () => {
  const drawing = surfaceDrawing(contours, 'x', ([east, north]) => [east + 10, north + 20])
  expect(drawing.lines).toEqual([
    {
      value: 5,
      path: [
        [10, 20],
        [11, 21],
      ],
    },
  ])
  expect(drawing.bands).toHaveLength(1)
  expect(drawing.bands[0]?.middle).toBe(1)
  expect(drawing.fullAt).toBe(9)
  expect(drawing.outline[0]?.[1]).toEqual([11, 20])
})
