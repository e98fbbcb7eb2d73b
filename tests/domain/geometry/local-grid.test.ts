import fc from 'fast-check'
import { expect, test } from 'vitest'
import { fitLocalGrid } from '#domain/geometry/local-grid.ts'
import { invertPlane, similarity, transformPlane } from '#domain/geometry/plane-transform.ts'
import { onLocalGrid, openSiteGrid } from '#domain/geometry/site-grid.ts'

const metres = fc.double({ min: -2000, max: 2000, noNaN: true })
const truth = fc.record({
  scale: fc.double({ min: 0.995, max: 1.005, noNaN: true }),
  turnRadians: fc.double({ min: -3.1, max: 3.1, noNaN: true }),
  shiftEast: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  shiftNorth: fc.double({ min: -1e7, max: 1e7, noNaN: true }),
})
const spread = fc
  .array(fc.tuple(metres, metres), { minLength: 2, maxLength: 8 })
  .filter(([first, ...others]) =>
    others.some(([x, y]) => Math.hypot(x - (first?.[0] ?? 0), y - (first?.[1] ?? 0)) > 50),
  )

test('a similarity is recovered from points that it moved, without residuals', () => {
  fc.assert(
    fc.property(truth, spread, (given, places) => {
      const by = similarity(given)
      const points = places.map((local, index) => ({
        id: String(index),
        local,
        crs: transformPlane(by, local),
      }))
      const fit = fitLocalGrid(points)
      if (!fit.ok) throw new Error(fit.issues[0]?.message)
      expect(fit.value.scale).toBeCloseTo(given.scale, 9)
      expect(Math.cos((fit.value.rotationDegrees * Math.PI) / 180 - given.turnRadians)).toBeCloseTo(1, 12)
      for (const { lengthMetres } of fit.value.residuals) expect(lengthMetres).toBeLessThan(1e-7)
      expect(fit.value.redundancy).toBe(2 * points.length - 4)
    }),
    { seed: 11 },
  )
})

test('with the scale held the grid is only turned and shifted, and what the scale would take stays as residuals', () => {
  fc.assert(
    fc.property(truth, spread, (given, places) => {
      const by = similarity(given)
      const fit = fitLocalGrid(
        places.map((local, index) => ({ id: String(index), local, crs: transformPlane(by, local) })),
        true,
      )
      if (!fit.ok) throw new Error(fit.issues[0]?.message)
      expect(fit.value.scale).toBe(1)
      expect(Math.hypot(fit.value.toCrs.a1, fit.value.toCrs.b1)).toBeCloseTo(1, 12)
      expect(fit.value.redundancy).toBe(2 * places.length - 3)
      const east = fit.value.residuals.reduce((sum, { eastMetres }) => sum + eastMetres, 0)
      expect(Math.abs(east)).toBeLessThan(1e-6)
    }),
    { seed: 12 },
  )
})

test('from the local grid to the earth and back', () => {
  const utm = openSiteGrid('EPSG:32630')
  if (!utm.ok) throw new Error('no grid')
  fc.assert(
    fc.property(fc.double({ min: -3.1, max: 3.1, noNaN: true }), metres, metres, (turnRadians, x, y) => {
      const by = similarity({ scale: 1.0002, turnRadians, shiftEast: 432_000, shiftNorth: 5_760_000 })
      const corners = [
        [0, 0],
        [500, 0],
        [0, 500],
      ] as const
      const fit = fitLocalGrid(
        corners.map((local, index) => ({ id: String(index), local, crs: transformPlane(by, local) })),
      )
      if (!fit.ok) throw new Error('no fit')
      const grid = onLocalGrid(utm.value, fit.value)
      const [east, north] = grid.toGrid(grid.toLngLat([x, y]))
      expect(Math.hypot(east - x, north - y)).toBeLessThan(1e-6)
    }),
    { seed: 13 },
  )
})

test('two points fit without a check; one, or two in one place, do not fit', () => {
  const at = (id: string, x: number, y: number) => ({ id, local: [x, y] as const, crs: [x + 10, y] as const })
  const fit = fitLocalGrid([at('A', 0, 0), at('B', 100, 0)])
  expect(fit.ok && fit.value).toMatchObject({ redundancy: 0, standardErrorMetres: null, rotationDegrees: 0 })
  const codes = (points: Parameters<typeof fitLocalGrid>[0]) => {
    const outcome = fitLocalGrid(points)
    return outcome.ok ? [] : outcome.issues.map(({ code }) => code)
  }
  expect(codes([at('A', 0, 0)])).toEqual(['control-too-few'])
  expect(codes([at('A', 5, 5), at('B', 5, 5)])).toEqual(['control-in-one-place'])
})

test('a transformation that flattens the plane has no way back', () => {
  expect(invertPlane({ a0: 1, a1: 1, a2: 2, b0: 1, b1: 2, b2: 4 })).toBeNull()
})
