import { expect, test } from 'vitest'
import { gridBearing, groundDistance } from '#domain/geometry/ground-distance.ts'
import { fitLocalGrid } from '#domain/geometry/local-grid.ts'
import { similarity, transformPlane } from '#domain/geometry/plane-transform.ts'
import { onLocalGrid, openSiteGrid, type SiteGrid } from '#domain/geometry/site-grid.ts'

function open(crs: string): SiteGrid {
  const grid = openSiteGrid(crs)
  if (!grid.ok) throw new Error(grid.issues[0]?.message)
  return grid.value
}

/** PROJ 9.5.1, factors at the point; the Lambert grid and the southern hemisphere among them. */
test.each([
  { crs: 'EPSG:2154', at: [652000, 6862000], scale: 0.9998923305554822, convergence: -0.4746839225872044 },
  { crs: 'EPSG:2157', at: [715000, 734000], scale: 0.99998226827903, convergence: 1.3856353816746587 },
  { crs: 'EPSG:2193', at: [1748000, 5428000], scale: 0.9998695751845773, convergence: -1.166370864825582 },
  { crs: 'EPSG:25832', at: [690000, 5335000], scale: 1.0000435868343749, convergence: 1.902778116154975 },
] as const)('scale and convergence of $crs', ({ crs, at, scale, convergence }) => {
  const factors = open(crs).factorsAt(at, 0)
  expect(Math.abs(factors.pointScaleFactor - scale)).toBeLessThan(1e-9)
  expect(Math.abs(factors.convergenceDegrees - convergence)).toBeLessThan(1e-8)
  expect(factors.heightFactor).toBe(1)
})

test('a local grid that was fitted to the ground has a factor of one, and the turn of its own north', () => {
  const utm = open('EPSG:32630')
  const centre = [500_000, 5_760_000] as const
  const there = utm.factorsAt(centre, 350)
  const turn = 10
  const toCrs = similarity({
    scale: there.combinedFactor,
    turnRadians: (turn * Math.PI) / 180,
    shiftEast: centre[0],
    shiftNorth: centre[1],
  })
  const corners = [
    [-100, -100],
    [100, -100],
    [100, 100],
  ] as const
  const fit = fitLocalGrid(
    corners.map((local, index) => ({ id: `CP-${index}`, local, crs: transformPlane(toCrs, local) })),
  )
  if (!fit.ok) throw new Error('no fit')
  const local = onLocalGrid(utm, fit.value).factorsAt([0, 0], 350)
  expect(local.combinedFactor).toBeCloseTo(1, 9)
  // A line to local north lies 10° west of grid north: its bearing there is 350°.
  expect(local.convergenceDegrees).toBeCloseTo(there.convergenceDegrees - turn, 9)
  expect(groundDistance(1000, there.combinedFactor)).toBeGreaterThan(1000.4)
})

test('bearings stay from 0 up to 360', () => {
  expect(gridBearing(1, -3, 0)).toBe(358)
  expect(gridBearing(359, 1, 0)).toBe(0)
  expect(gridBearing(360, 0, 0)).toBe(0)
})
