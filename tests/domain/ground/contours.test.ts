import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { contourLevels, drawContours } from '#domain/ground/contours.ts'
import type { SettlementSurface } from '#domain/ground/settlement-surface.ts'
import { surfaceAt } from '#domain/ground/surface-at.ts'
import { groundSurfaceRows } from '../../published/ground-surfaces/rows.ts'
import { fromRows, pointAt, ringArea, scattered, surfaceOf } from './random-points.ts'

const levelsFor = (surface: SettlementSurface) =>
  [...new Set([...contourLevels(surface.lowestMm, surface.highestMm), -2, 0, 1])].sort((a, b) => a - b)

const maskArea = ({ mesh }: SettlementSurface) => {
  let twice = 0
  for (let side = 0; side < mesh.triangles.length; side += 3) {
    const [a, b, c] = [0, 1, 2].map((corner) => mesh.triangles[side + corner] as number) as [
      number,
      number,
      number,
    ]
    const e = (node: number) => mesh.east[node] as number
    const n = (node: number) => mesh.north[node] as number
    twice += (e(b) - e(a)) * (n(c) - n(a)) - (n(b) - n(a)) * (e(c) - e(a))
  }
  return twice / 2
}

function isOnRim({ mask }: SettlementSurface, [e, n]: readonly [number, number], slack: number): boolean {
  return mask.some((ring) =>
    ring.slice(1).some(([be, bn], index) => {
      const [ae, an] = ring[index] as readonly [number, number]
      const length = Math.hypot(be - ae, bn - an)
      const along = ((e - ae) * (be - ae) + (n - an) * (bn - an)) / length
      const away = Math.abs((e - ae) * (bn - an) - (n - an) * (be - ae)) / length
      return away <= slack && along >= -slack && along <= length + slack
    }),
  )
}

describe('any points, any levels', () => {
  test('every point of a line interpolates to its level', () => {
    fc.assert(
      fc.property(scattered, (rows) => {
        const surface = surfaceOf(fromRows(rows))
        fc.pre(surface !== null)
        for (const { levelMm, points } of drawContours(surface, levelsFor(surface)).lines)
          for (const point of points) expect(surfaceAt(surface, point)?.valueMm).toBeCloseTo(levelMm, 6)
      }),
      { seed: 21, numRuns: 200 },
    )
  })

  test('lines close or end on the edge of the mask, with the lower side on their right', () => {
    fc.assert(
      fc.property(scattered, (rows) => {
        const surface = surfaceOf(fromRows(rows))
        fc.pre(surface !== null)
        for (const { levelMm, points, closed } of drawContours(surface, levelsFor(surface)).lines) {
          expect(points.length).toBeGreaterThan(1)
          if (!closed)
            for (const end of [points[0], points.at(-1)])
              expect(end && isOnRim(surface, end, 1e-7)).toBe(true)
          for (let index = 0; index + 1 < points.length; index++) {
            const [ae, an] = points[index] as readonly [number, number]
            const [be, bn] = points[index + 1] as readonly [number, number]
            const length = Math.hypot(be - ae, bn - an)
            if (length < 1e-3) continue
            const right = surfaceAt(surface, [
              (ae + be) / 2 + (1e-6 * (bn - an)) / length,
              (an + bn) / 2 - (1e-6 * (be - ae)) / length,
            ])
            if (right) expect(right.valueMm).toBeLessThan(levelMm + 1e-7)
          }
        }
      }),
      { seed: 22, numRuns: 200 },
    )
  })

  test('bands cover the mask once, and hold only values between their ends', () => {
    fc.assert(
      fc.property(scattered, (rows) => {
        const surface = surfaceOf(fromRows(rows))
        fc.pre(surface !== null)
        const { bands } = drawContours(surface, levelsFor(surface))
        const area = maskArea(surface)
        const covered = bands
          .flatMap(({ polygons }) => polygons.flat().map(ringArea))
          .reduce((sum, ring) => sum + ring, 0)
        expect(Math.abs(covered - area)).toBeLessThan(1e-8 * area)
        expect(Math.abs(surface.mask.map(ringArea).reduce((sum, ring) => sum + ring, 0) - area)).toBeLessThan(
          1e-8 * area,
        )
        for (const { lowMm, highMm, polygons } of bands)
          for (const [outer, ...holes] of polygons) {
            expect(ringArea(outer ?? [])).toBeGreaterThan(0)
            for (const hole of holes) expect(ringArea(hole)).toBeLessThan(0)
            for (const ring of [outer ?? [], ...holes])
              for (const point of ring) {
                const value = surfaceAt(surface, point)?.valueMm ?? Number.NaN
                expect(value).toBeGreaterThanOrEqual(lowMm - 1e-6)
                expect(value).toBeLessThanOrEqual(highMm + 1e-6)
              }
          }
      }),
      { seed: 23, numRuns: 200 },
    )
  })

  test('scales from 1e-3 to 1e6 in plan and in value give the same picture, scaled', () => {
    fc.assert(
      fc.property(
        scattered,
        fc.constantFrom(1e-3, 1, 1e3, 1e6),
        fc.constantFrom(1e-3, 1e6),
        (rows, plan, value) => {
          const surface = surfaceOf(fromRows(rows))
          const scaled = surfaceOf(fromRows(rows.map(([e, n, v]) => [e * plan, n * plan, v * value])))
          expect(scaled === null).toBe(surface === null)
          if (!surface || !scaled) return
          const levels = levelsFor(surface)
          const before = drawContours(surface, levels)
          const after = drawContours(
            scaled,
            levels.map((level) => level * value),
          )
          const areas = (drawn: typeof before) =>
            drawn.bands.map(({ polygons }) =>
              polygons
                .flat()
                .map(ringArea)
                .reduce((a, b) => a + b, 0),
            )
          // A value that rounds across its level may open or close a band of no width: compare the areas that count.
          const total = maskArea(surface)
          const big = (list: readonly number[]) => list.filter((area) => area > 1e-6 * total)
          const scaledAreas = big(areas(after).map((area) => area / plan ** 2))
          expect(scaledAreas).toHaveLength(big(areas(before)).length)
          for (const [index, area] of big(areas(before)).entries())
            expect(Math.abs((scaledAreas[index] as number) - area)).toBeLessThan(1e-6 * total)
        },
      ),
      { seed: 24, numRuns: 100 },
    )
  })

  test('a mirrored layout gives the mirrored surface', () => {
    fc.assert(
      fc.property(
        scattered,
        fc.tuple(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 0, max: 80 })),
        (rows, target) => {
          const surface = surfaceOf(fromRows(rows))
          const mirrored = surfaceOf(fromRows(rows.map(([e, n, v]) => [-e, n, v])))
          const turned = surfaceOf(fromRows(rows.map(([e, n, v]) => [n, -e, v])))
          expect(mirrored === null).toBe(surface === null)
          if (!surface || !mirrored || !turned) return
          const here = surfaceAt(surface, target)?.valueMm
          const there = surfaceAt(mirrored, [-target[0], target[1]])?.valueMm
          const round = surfaceAt(turned, [target[1], -target[0]])?.valueMm
          fc.pre(here !== undefined && there !== undefined && round !== undefined)
          expect(there).toBeCloseTo(here, 6)
          expect(round).toBeCloseTo(here, 6)
        },
      ),
      { seed: 25, numRuns: 200 },
    )
  })
})

test('a plane is reproduced exactly: straight lines, right values, right gradient', () => {
  const plane = (e: number, n: number) => 3 + 0.25 * (e - 500000) - 0.1 * (n - 310000)
  const rows = Array.from({ length: 60 }, (_, index) => {
    const e = 500000 + ((index * 37) % 97)
    const n = 310000 + ((index * 53) % 89)
    return [e, n, plane(e, n)] as const
  })
  const surface = surfaceOf(fromRows(rows))
  if (!surface) throw new Error('no surface')
  const { lines, levelsMm } = drawContours(surface)
  expect(levelsMm.length).toBeGreaterThan(4)
  expect(lines).toHaveLength(levelsMm.length)
  for (const { levelMm, points, closed } of lines) {
    expect(closed).toBe(false)
    for (const [e, n] of points) expect(Math.abs(plane(e, n) - levelMm)).toBeLessThan(1e-9)
  }
  const inside = surfaceAt(surface, [500048, 310044])
  expect(inside?.valueMm).toBeCloseTo(plane(500048, 310044), 9)
  expect(inside?.gradientMmPerMetre[0]).toBeCloseTo(0.25, 9)
  expect(inside?.gradientMmPerMetre[1]).toBeCloseTo(-0.1, 9)
})

test('a symmetric bowl on a square grid has symmetric closed lines', () => {
  const rows: [number, number, number][] = []
  for (let e = -3; e <= 3; e++) for (let n = -3; n <= 3; n++) rows.push([e, n, 10 - e * e - n * n])
  const surface = surfaceOf(fromRows(rows))
  if (!surface) throw new Error('no surface')
  const { lines } = drawContours(surface, [3.5, 7.5])
  expect(lines.map(({ closed }) => closed)).toEqual([true, true])
  for (const { points } of lines) {
    const key = ([e, n]: readonly [number, number]) =>
      `${(e + 0).toFixed(9)} ${(n + 0).toFixed(9)}`.replaceAll('-0.000000000', '0.000000000')
    const given = new Set(points.map(key))
    expect(new Set(points.map(([e, n]) => key([-e, n])))).toEqual(given)
    expect(new Set(points.map(([e, n]) => key([n, e])))).toEqual(given)
  }
})

test('a cone: over triangles, areas nearly as row CNT-01 has them over squares', () => {
  const row = groundSurfaceRows.find(({ id }) => id === 'CNT-01')
  const [levels, shares] = [row?.inputs.levels as number[], row?.expected as number[]]
  const rows: [number, number, number][] = []
  for (let e = -12; e <= 12; e++) for (let n = -12; n <= 12; n++) rows.push([e, n, 10 - Math.hypot(e, n)])
  const surface = surfaceOf(fromRows(rows))
  if (!surface) throw new Error('no surface')
  const { lines } = drawContours(surface, levels)
  expect(lines).toHaveLength(3)
  lines.forEach(({ points, closed, levelMm }, index) => {
    const radius = 10 - levelMm
    expect(closed).toBe(true)
    // Middles of squares add corners to the lines, so they differ a little from lines across whole squares.
    expect(Math.abs(ringArea(points) / (Math.PI * radius ** 2) - (shares[index] as number))).toBeLessThan(
      0.02,
    )
  })
})

test('a ring-shaped band has its hole', () => {
  const rows: [number, number, number][] = []
  for (let e = -4; e <= 4; e++) for (let n = -4; n <= 4; n++) rows.push([e, n, 10 - Math.hypot(e, n)])
  const surface = surfaceOf(fromRows(rows))
  if (!surface) throw new Error('no surface')
  const { bands } = drawContours(surface, [7, 8.5])
  expect(bands.map(({ polygons }) => polygons.map((rings) => rings.length))).toEqual([[2], [2], [1]])
  expect(bands.map(({ lowMm, highMm }) => [lowMm, highMm])).toEqual([
    [surface.lowestMm, 7],
    [7, 8.5],
    [8.5, 10],
  ])
})

test('all values equal: one band over the whole mask, no lines', () => {
  const surface = surfaceOf(
    fromRows([
      [0, 0, 2.3],
      [10, 0, 2.3],
      [10, 10, 2.3],
      [0, 10, 2.3],
      [4, 5, 2.3],
    ]),
  )
  if (!surface) throw new Error('no surface')
  const drawn = drawContours(surface)
  expect(drawn.levelsMm).toEqual([])
  expect(drawn.lines).toEqual([])
  expect(drawn.bands).toHaveLength(1)
  expect(drawContours(surface, [2.3]).lines).toEqual([])
})

test('levels are round, within, and at most twelve', () => {
  expect(contourLevels(-21.3, 1.2)).toEqual([-20, -18, -16, -14, -12, -10, -8, -6, -4, -2, 0])
  expect(contourLevels(0, 10, 5)).toEqual([5])
  expect(contourLevels(0, 10)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  expect(contourLevels(4, 4)).toEqual([])
  expect(contourLevels(0.1, 0.1 + Number.EPSILON)).toEqual([])
})

test('the result says how it was made, from what, and what was left out', () => {
  const surface = surfaceOf([
    pointAt('A', 0, 0, 1),
    pointAt('B', 10, 0, 2),
    pointAt('C', 0, 10, 3),
    pointAt('D', 30, 30, 4, { late: true }),
  ])
  if (!surface) throw new Error('no surface')
  expect(drawContours(surface)).toMatchObject({
    method: expect.stringMatching(/Delaunay/),
    parameters: { barriers: 0 },
    pointsUsed: ['A', 'B', 'C'],
    pointsLeftOut: [{ id: 'D', reason: 'Its last reading is late: it has no current value.' }],
    mask: [expect.any(Array)],
  })
})
