import { expect, test } from 'vitest'
import { areaAndCentroid, convexHull } from '#domain/ground/convex-hull.ts'
import { gridMesh } from '#domain/ground/grid-mesh.ts'
import { placeOfNode } from '#domain/ground/grid-slope.ts'
import { groundSurfaceSteps, type SurfaceRequest } from '#domain/ground/ground-surface.ts'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import { surfaceVolume } from '#domain/ground/surface-volume.ts'
import { gridOver } from '#domain/ground/value-grid.ts'
import { accepted } from '../../published/accepted.ts'
import { finishSteps } from '../../support/finish-steps.ts'

const point = (east: number, north: number, value: number | null, late = false): GroundPoint => ({
  id: `${east} ${north}`,
  eastingMetres: east,
  northingMetres: north,
  value,
  standardUncertainty: 0.1,
  late,
})
/** Spread over a lozenge, so that no side of the outermost points runs along the grid. */
const spread = Array.from({ length: 40 }, (_, index) => {
  const [x, y] = [(index * 0.618034) % 1, (index * 0.754878) % 1]
  return [100 * x + 40 * y, 80 * y - 20 * x] as const
})
const plane = (east: number, north: number) => 3 + east / 10 - north / 5
const request = (points: readonly GroundPoint[], more: Partial<SurfaceRequest>): SurfaceRequest => ({
  points,
  unit: 'mm',
  method: 'natural-neighbours',
  barriers: [],
  longestSideMetres: 100,
  silentRadiusMetres: 20,
  nodes: 61,
  sectionLine: [],
  ...more,
})
const areaOf = (rings: readonly (readonly (readonly [number, number])[])[]) =>
  rings.reduce((sum, ring) => sum + areaAndCentroid(ring.slice(1)).area, 0)
const hullArea = areaAndCentroid(convexHull(spread)).area
const methods = ['natural-neighbours', 'inverse-distance', 'kriging'] as const

test.each(methods)('%s: the outline is that of the outermost points, not of the grid', (method) => {
  const points = spread.map(([e, n]) => point(e, n, plane(e, n)))
  const { mask, bands, volume } = accepted(finishSteps(groundSurfaceSteps(request(points, { method }))))
  const area = areaOf(mask)
  // Corners are cut within a cell.
  expect(area / hullArea).toBeGreaterThan(0.995)
  expect(area / hullArea).toBeLessThanOrEqual(1 + 1e-9)
  expect(volume.areaSquareMetres).toBeCloseTo(area, 6)
  expect(bands.reduce((sum, { polygons }) => sum + areaOf(polygons.flat()), 0)).toBeCloseTo(area, 6)
})

test.each(methods)('%s: around a point without a current value runs a circle', (method) => {
  const points = spread.map(([e, n]) => point(e, n, plane(e, n)))
  const silent = point(70, 30, 4, true)
  const whole = accepted(finishSteps(groundSurfaceSteps(request(points, { method }))))
  const cut = accepted(finishSteps(groundSurfaceSteps(request([...points, silent], { method }))))
  const missing = areaOf(whole.mask) - areaOf(cut.mask)
  expect(missing / (Math.PI * 20 ** 2)).toBeCloseTo(1, 2)
  const circle = cut.mask.find((ring) => areaAndCentroid(ring.slice(1)).area < 0) ?? []
  expect(circle.length).toBeGreaterThan(40)
  for (const [e, n] of circle) expect(Math.abs(Math.hypot(e - 70, n - 30) - 20)).toBeLessThan(0.1)
})

test('natural neighbours keep a plane up to the outermost points', () => {
  const points = spread.map(([e, n]) => point(e, n, plane(e, n)))
  const { volume } = accepted(finishSteps(groundSurfaceSteps(request(points, {}))))
  const { lines } = accepted(finishSteps(groundSurfaceSteps(request(points, {}))))
  for (const { level, points: line } of lines)
    for (const [e, n] of line) expect(plane(e, n)).toBeCloseTo(level, 4)
  expect(volume.net).not.toBe(0)
})

test('where the deviation is above its limit the edge runs along the limit', () => {
  const points = spread
    .filter(([e, n]) => Math.hypot(e - 70, n - 30) > 28)
    .map(([e, n]) => point(e, n, 10 * Math.sin(e / 16) * Math.cos(n / 14)))
  const coarse = accepted(finishSteps(groundSurfaceSteps(request(points, { method: 'kriging', nodes: 41 }))))
  const fine = accepted(finishSteps(groundSurfaceSteps(request(points, { method: 'kriging', nodes: 161 }))))
  expect(areaOf(fine.mask) / hullArea).toBeLessThan(0.97)
  expect(areaOf(coarse.mask) / areaOf(fine.mask)).toBeCloseTo(1, 1)
  const perimeter = (rings: typeof fine.mask) =>
    rings
      .flatMap((ring) =>
        ring.slice(1).map(([e, n], at) => Math.hypot(e - (ring[at]?.[0] ?? e), n - (ring[at]?.[1] ?? n))),
      )
      .reduce((sum, one) => sum + one, 0)
  // Steps would make it longer by up to four over π, however fine the grid.
  expect(perimeter(coarse.mask) / perimeter(fine.mask)).toBeGreaterThan(0.85)
  expect(perimeter(coarse.mask) / perimeter(fine.mask)).toBeLessThan(1.05)
})

test('the volume of a bowl inside a circle, whose edge runs between the nodes', () => {
  const inside = (cellMetres: number) => {
    const place = gridOver({ low: [-30, -30], high: [30, 30] }, Math.round(60 / cellMetres) + 1)
    const away = Float64Array.from({ length: place.columns * place.rows }, (_, node) =>
      Math.hypot(...placeOfNode(place, node)),
    )
    const values = away.map((r) => 0.02 * Math.exp(-(r * r) / 200))
    const inwardMetres = away.map((r) => 20 - r)
    const grid = { ...place, values, mask: new Uint8Array(away.length), edge: { inwardMetres, part: null } }
    return surfaceVolume(gridMesh(grid), 0).net
  }
  // Analytic: 2 pi i^2 Smax (1 - exp(-r^2 / 2 i^2)) with Smax 0.02 m, i 10 m, r 20 m.
  expect(Math.abs(inside(0.5) / 10.865697288 - 1)).toBeLessThan(3e-4)
  // Straight pieces in place of a circle: an error by the square of the cell.
  const [coarse, fine] = [inside(1) / 10.865697288 - 1, inside(0.5) / 10.865697288 - 1]
  expect(coarse / fine).toBeGreaterThan(3)
})
