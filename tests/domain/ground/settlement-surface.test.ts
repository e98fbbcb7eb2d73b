import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { buildSettlementSurface } from '#domain/ground/settlement-surface.ts'
import { surfaceAt } from '#domain/ground/surface-at.ts'
import { everywhere, fromRows, pointAt, ringArea, scattered, surfaceOf } from './random-points.ts'

const area = (points: Parameters<typeof surfaceOf>[0], options = everywhere) =>
  (surfaceOf(points, options)?.mask ?? []).map(ringArea).reduce((sum, ring) => sum + ring, 0)
const square = [
  pointAt('A', 0, 0, 0),
  pointAt('B', 20, 0, 4),
  pointAt('C', 20, 20, 8),
  pointAt('D', 0, 20, 0),
]

describe('what cannot be a surface is refused with the reason', () => {
  const refused = (points: Parameters<typeof surfaceOf>[0], options = everywhere) => {
    const outcome = buildSettlementSurface(points, options)
    return outcome.ok ? null : outcome.issues[0]
  }
  test('too few places', () => {
    expect(refused([])).toMatchObject({ code: 'too-few-points', value: '0' })
    expect(refused([pointAt('A', 0, 0, 1), pointAt('B', 1, 0, 1)])?.message).toMatch(/there are 2/)
    expect(refused([pointAt('A', 5, 5, 1), pointAt('B', 5, 5, 2), pointAt('C', 5, 5, 3)])?.message).toMatch(
      /there is 1/,
    )
  })
  test('one line, in any direction', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), fc.integer({ min: 1, max: 50 }), (de, dn) => {
        const line = [0, 1, 2, 3, 7.3].map((step, index) =>
          pointAt(`P${index}`, 500000 + de * step, 310000 + dn * step, step),
        )
        expect(refused(line)?.code).toBe('points-on-one-line')
      }),
      { seed: 31 },
    )
  })
  test('everything cut', () => {
    expect(refused(square, { barriers: [], longestSideMetres: 10 })).toMatchObject({ code: 'surface-empty' })
  })
})

test('values that are late, absent or without a place are left out, with the reason and the ground around them', () => {
  const silent = [
    pointAt('late', 10, 10, 3, { late: true }),
    pointAt('absent', 25, 10, null),
    pointAt('lost', Number.NaN, 10, 3),
  ]
  const outer = [
    pointAt('A', 0, 0, 0),
    pointAt('B', 20, 0, 4),
    pointAt('C', 20, 20, 8),
    pointAt('D', 0, 20, 0),
    pointAt('E', 45, 10, 2),
  ]
  const outcome = buildSettlementSurface([...outer, ...silent], everywhere)
  expect(outcome).toMatchObject({ ok: false, issues: [{ code: 'surface-empty' }] })
  const farther = [...outer, pointAt('F', 45, -15, 1)]
  const surface = surfaceOf([...farther, ...silent])
  expect(surface?.pointsLeftOut).toEqual([
    { id: 'late', reason: 'Its last reading is late: it has no current value.' },
    { id: 'absent', reason: 'It has no value.' },
    { id: 'lost', reason: 'Its position is not known.' },
  ])
  expect(surface?.cut['point-without-current-value']).toBe(2)
  expect(surface && surfaceAt(surface, [10, 10])).toBeNull()
  expect(surface && surfaceAt(surface, [40, -5])).not.toBeNull()
})

test('a late point that another has replaced at its place is not missed', () => {
  expect(area([...square, pointAt('old', 20, 20, 3, { late: true })])).toBeCloseTo(400, 9)
})

test('points at one place are merged to their mean, with the reason', () => {
  const surface = surfaceOf([...square, pointAt('C2', 20, 20, 10, { standardUncertaintyMm: 0.7 })])
  expect(surface?.pointsMerged).toEqual([
    { ids: ['C', 'C2'], reason: 'They stand at one place; their mean is used.' },
  ])
  const corner = surface && surfaceAt(surface, [20, 20])
  expect(corner?.valueMm).toBeCloseTo(9, 12)
  expect(corner?.standardUncertaintyMm).toBeCloseTo(0.7 / Math.SQRT2, 12)
})

test('the corners of a square meet at their mean, with the uncertainty of a mean of four', () => {
  const surface = surfaceOf(square)
  const middle = surface && surfaceAt(surface, [10, 10])
  expect(middle?.valueMm).toBe(3)
  expect(middle?.standardUncertaintyMm).toBeCloseTo(0.35, 12)
  const unknown = surfaceOf([...square.slice(1), pointAt('A', 0, 0, 0, { standardUncertaintyMm: null })])
  expect(unknown && surfaceAt(unknown, [10, 10])?.standardUncertaintyMm).toBeNull()
  expect(surfaceOf(square, { barriers: [], longestSideMetres: 21 })).not.toBeNull()
})

test('sides longer than stated are left out', () => {
  const spread = [...square, pointAt('E', 80, 10, 5)]
  expect(area(spread)).toBeCloseTo(400 + 600, 9)
  expect(area(spread, { barriers: [], longestSideMetres: 25 })).toBeCloseTo(400, 9)
  expect(surfaceOf(spread, { barriers: [], longestSideMetres: 25 })?.cut['long-side']).toBe(1)
})

describe('a barrier', () => {
  const rows: [number, number, number][] = []
  for (let e = 0; e <= 60; e += 10) for (let n = 0; n <= 60; n += 12) rows.push([e, n, (e * 7 + n * 3) % 11])
  const wall = [
    [25, -10],
    [25, 70],
  ] as const
  const options = { barriers: [wall], longestSideMetres: 100 }

  test('is not crossed', () => {
    const surface = surfaceOf(fromRows(rows), options)
    expect(surface?.cut.barrier).toBe(5)
    expect(surface && surfaceAt(surface, [25, 30])).toBeNull()
    expect(surface && surfaceAt(surface, [21, 30])).toBeNull()
    expect(surface && surfaceAt(surface, [15, 30])).not.toBeNull()
    expect(surface?.mask).toHaveLength(2)
  })

  test('keeps readings on one side from changing the other', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 42, maxLength: 42 }), (other) => {
        const before = surfaceOf(fromRows(rows), options)
        const after = surfaceOf(
          fromRows(rows.map(([e, n, v], index) => [e, n, e > 25 ? (other[index] as number) : v])),
          options,
        )
        for (const target of [
          [5, 5],
          [10, 30],
          [19, 41],
          [0, 60],
        ] as const)
          expect(after && surfaceAt(after, target)).toEqual(before && surfaceAt(before, target))
      }),
      { seed: 32, numRuns: 50 },
    )
  })

  test('that ends inside a cell, or lies wholly in it, cuts it; one along a side does not', () => {
    const cutBy = (...barrier: (readonly [number, number])[]) =>
      area(square.concat(pointAt('E', 40, 0, 1), pointAt('F', 40, 20, 1)), {
        barriers: [barrier],
        longestSideMetres: 100,
      })
    expect(cutBy([-5, 10], [5, 10])).toBeCloseTo(400, 9)
    expect(cutBy([8, 8], [9, 9])).toBeCloseTo(400, 9)
    expect(cutBy([20, -5], [20, 25])).toBeCloseTo(800, 9)
    expect(cutBy([-5, -5], [25, -5])).toBeCloseTo(800, 9)
    // Along the diagonal, where sides of triangles may lie.
    expect(cutBy([-5, -5], [25, 25])).toBeCloseTo(400, 9)
  })
})

test('the surface is its points: value and uncertainty come back at each, in any order of the points', () => {
  fc.assert(
    fc.property(scattered, (rows) => {
      const points = fromRows(rows)
      const surface = surfaceOf(points)
      const reversed = surfaceOf(points.toReversed())
      fc.pre(surface !== null && reversed !== null)
      const merged = new Set(surface.pointsMerged.flatMap(({ ids }) => ids))
      for (const { id, eastingMetres, northingMetres, valueMm } of points) {
        const here = surfaceAt(surface, [eastingMetres, northingMetres])
        if (!here || merged.has(id)) continue
        expect(here.valueMm).toBeCloseTo(valueMm as number, 6)
        expect(here.standardUncertaintyMm).toBeCloseTo(0.7, 6)
      }
      const again = reversed.mask.map(ringArea).reduce((sum, ring) => sum + ring, 0)
      expect(again).toBeCloseTo(
        surface.mask.map(ringArea).reduce((sum, ring) => sum + ring, 0),
        5,
      )
    }),
    { seed: 33 },
  )
})
