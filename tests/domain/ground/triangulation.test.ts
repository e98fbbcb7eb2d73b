import fc from 'fast-check'
import { expect, test } from 'vitest'
import { delaunayCells } from '#domain/ground/delaunay-cells.ts'
import { triangulate } from '#domain/ground/triangulation.ts'

const at = (eastingMetres: number, northingMetres: number) => ({ eastingMetres, northingMetres })
const whole = fc.integer({ min: 0, max: 12 })

const opened = (points: readonly ReturnType<typeof at>[]) => {
  const outcome = triangulate(points)
  return outcome.ok ? outcome.value : null
}

test('triangles turn counter-clockwise and no place lies inside their circles', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(whole, whole), { minLength: 3, maxLength: 30 }), (rows) => {
      const made = opened(rows.map(([e, n]) => at(500000 + e, 310000 + n)))
      fc.pre(made !== null)
      const { east, north, triangles } = made
      for (let side = 0; side < triangles.length; side += 3) {
        const [a, b, c] = [...triangles.subarray(side, side + 3)] as [number, number, number]
        const [ae, an] = [east[a] as number, north[a] as number]
        const [be, bn] = [(east[b] as number) - ae, (north[b] as number) - an]
        const [ce, cn] = [(east[c] as number) - ae, (north[c] as number) - an]
        const twice = be * cn - bn * ce
        expect(twice).toBeGreaterThan(0)
        const u = (cn * (be * be + bn * bn) - bn * (ce * ce + cn * cn)) / (2 * twice)
        const v = (be * (ce * ce + cn * cn) - ce * (be * be + bn * bn)) / (2 * twice)
        for (let place = 0; place < east.length; place++) {
          const away = Math.hypot((east[place] as number) - ae - u, (north[place] as number) - an - v)
          expect(away).toBeGreaterThan(Math.hypot(u, v) - 1e-9)
        }
      }
    }),
    { seed: 41 },
  )
})

test('every point belongs to one place; points at one place share it', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(whole, whole), { minLength: 3, maxLength: 30 }), (rows) => {
      const made = opened(rows.map(([e, n]) => at(e, n)))
      fc.pre(made !== null)
      expect(made.members.flat().toSorted((a, b) => a - b)).toEqual(rows.map((_, index) => index))
      expect(made.members).toHaveLength(new Set(rows.map(String)).size)
      for (const group of made.members)
        expect(new Set(group.map((index) => String(rows[index]))).size).toBe(1)
    }),
    { seed: 42 },
  )
})

test('rectangles are one cell each, also when surveyed to the millimetre; other places make triangles', () => {
  const grid = [0, 20, 40].flatMap((e) => [0, 6, 12].map((n) => at(e, n)))
  const survey = grid.map(({ eastingMetres, northingMetres }, index) =>
    at(eastingMetres + ((index * 7) % 3) / 1000, northingMetres - ((index * 5) % 4) / 2000),
  )
  for (const points of [grid, survey]) {
    const made = opened(points)
    if (!made) throw new Error('no triangulation')
    expect(delaunayCells(made).map((cell) => cell.length)).toEqual([4, 4, 4, 4])
  }
  const kite = opened([at(0, 0), at(10, 1), at(3, 8), at(-4, 5)])
  if (!kite) throw new Error('no triangulation')
  expect(delaunayCells(kite).map((cell) => cell.length)).toEqual([3, 3])
})
