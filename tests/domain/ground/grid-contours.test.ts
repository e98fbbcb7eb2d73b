import { expect, test } from 'vitest'
import { contourStep } from '#domain/ground/contour-step.ts'
import { meshContours } from '#domain/ground/contours.ts'
import { areaAndCentroid } from '#domain/ground/convex-hull.ts'
import { gridMesh } from '#domain/ground/grid-mesh.ts'
import { interpolatedGridSteps } from '#domain/ground/interpolated-grid.ts'
import { surfaceVolume } from '#domain/ground/surface-volume.ts'
import { gridOver } from '#domain/ground/value-grid.ts'
import { accepted } from '../../published/accepted.ts'
import { finishSteps } from '../../support/finish-steps.ts'

function gridOf(cellMetres: number, value: (east: number, north: number) => number) {
  const place = gridOver({ low: [0, 0], high: [60, 40] }, Math.round(60 / cellMetres) + 1)
  const values = Float64Array.from({ length: place.columns * place.rows }, (_, node) => {
    const column = node % place.columns
    return value(column * place.cellMetres, ((node - column) / place.columns) * place.cellMetres)
  })
  return { ...place, values, mask: new Uint8Array(values.length) }
}

const linesOf = (grid: ReturnType<typeof gridOf>, levels: readonly number[]) =>
  meshContours(gridMesh(grid), -1e9, 1e9, levels).lines

test('lines keep what is lower on their right, and end only where nothing is shown', () => {
  const grid = gridOf(1, (e, n) => Math.hypot(e - 30, n - 20))
  const lines = linesOf(grid, [5, 15, 25])
  expect(lines.map(({ levelMm, closed }) => [levelMm, closed])).toEqual([
    [5, true],
    [15, true],
    [25, false],
    [25, false],
  ])
  // The bowl is lower inside, so its closed lines run clockwise.
  const { area } = areaAndCentroid(lines[0]?.points.slice(1) ?? [])
  expect(area).toBeLessThan(0)
  grid.mask[20 * 61 + 35] = 1
  expect(linesOf(grid, [5])[0]?.closed).toBe(false)
})

test('a saddle is parted without a crossing, a flat grid and a level outside give no line', () => {
  const saddle = gridOf(20, (e, n) => ((e / 20 + n / 20) % 2 === 0 ? 1 : 0))
  for (const { points } of linesOf(saddle, [0.4, 0.6])) expect(points.length).toBeGreaterThan(1)
  expect(
    linesOf(
      gridOf(5, () => 3),
      [1, 3, 5],
    ),
  ).toEqual([])
})

test('a volume is the same however fine the grid of a plane, and near it for a bowl', () => {
  const volume = (cell: number, value: (e: number, n: number) => number) =>
    surfaceVolume(gridMesh(gridOf(cell, value)), 1)
  const plane = (e: number, n: number) => e / 30 - n / 40
  for (const part of ['above', 'below', 'net', 'areaSquareMetres'] as const)
    expect(volume(2, plane)[part]).toBeCloseTo(volume(10, plane)[part], 7)
  // Nothing of it reaches the edge: the trapezoid rule is then exact to many digits.
  const bowl = (e: number, n: number) => 1 - 20 * Math.exp(-((e - 30) ** 2 + (n - 20) ** 2) / 18)
  expect(volume(1, bowl).net).toBeCloseTo(-20 * 2 * Math.PI * 9, 6)
  expect(volume(2, bowl).net).toBeCloseTo(volume(1, bowl).net, 6)
})

test('no step is finer than the deviation warrants', () => {
  expect(contourStep(-32, 4, 0.1, 'mm')?.step).toBe(5)
  expect(contourStep(-32, 4, 4, 'mm')).toMatchObject({
    step: 10,
    reason: expect.stringContaining('told apart'),
  })
  expect(contourStep(-1, 1, 4, 'mm')).toBeNull()
})

test('natural neighbours reproduce a plane; inverse distance calls itself a fallback', () => {
  const points = [0, 1, 2, 3, 4, 5, 6, 7].map((index) => {
    const [east, north] = [1000 + ((index * 37) % 60), 1000 + ((index * 23) % 40)]
    return {
      id: String(index),
      eastingMetres: east,
      northingMetres: north,
      value: east / 10 - north / 5,
      standardUncertainty: null,
      late: false,
    }
  })
  const place = gridOver({ low: [1000, 1000], high: [1060, 1040] }, 31)
  const { grid } = accepted(finishSteps(interpolatedGridSteps(points, 'natural neighbours', place, 'mm')))
  let shown = 0
  grid.values.forEach((value, node) => {
    if (grid.mask[node] !== 0) return
    shown += 1
    const east = 1000 + (node % grid.columns) * grid.cellMetres
    const north = 1000 + Math.floor(node / grid.columns) * grid.cellMetres
    expect(value).toBeCloseTo(east / 10 - north / 5, 8)
  })
  expect(shown).toBeGreaterThan(100)
  expect(
    accepted(finishSteps(interpolatedGridSteps(points, 'inverse distance', place, 'mm'))).method,
  ).toContain('Fallback')
})

test('bands of a grid cover what is shown once', () => {
  const grid = gridOf(1, (e, n) => Math.sin(e / 7) * Math.cos(n / 5))
  for (const node of [700, 701, 1500]) grid.mask[node] = 1
  const mesh = gridMesh(grid)
  const { bands } = meshContours(mesh, -1, 1, [-0.6, -0.2, 0.2, 0.6])
  const areas = bands.map(({ polygons }) =>
    polygons.flat().reduce((sum, ring) => sum + areaAndCentroid(ring.slice(1)).area, 0),
  )
  expect(areas.length).toBe(5)
  expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(surfaceVolume(mesh, 0).areaSquareMetres, 6)
})
