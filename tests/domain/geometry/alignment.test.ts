import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lengthOfLine, pointAtChainage, stationOf } from '#domain/geometry/alignment.ts'

const line = [
  [0, 0],
  [100, 0],
  [100, 100],
] as const

test('before the start it is held there, and says so', () => {
  expect(stationOf(line, [-5, 3], { startChainageMetres: 1000 })).toMatchObject({
    chainageMetres: 1000,
    beyond: 'start',
    segment: 0,
  })
})

test('in the outer wedge of a sharp bend every point is on its outer side', () => {
  const hairpin = [
    [0, 0],
    [100, 0],
    [0, 10],
  ] as const
  for (const point of [
    [110, -3],
    [110, 0],
    [110, 3],
  ] as const) {
    expect(stationOf(hairpin, point)?.offsetMetres).toBeCloseTo(Math.hypot(10, point[1]), 9)
    const mirrored = hairpin.map(([e, n]) => [e, -n] as const)
    expect(stationOf(mirrored, [point[0], -point[1]])?.offsetMetres).toBeCloseTo(-Math.hypot(10, point[1]), 9)
  }
})

test('chainage and offset give the point back beside a straight line', () => {
  const metres = fc.double({ min: -1000, max: 1000, noNaN: true })
  fc.assert(
    fc.property(metres, metres, metres, metres, (toE, toN, e, n) => {
      fc.pre(Math.hypot(toE, toN) > 1)
      const straight = [
        [0, 0],
        [toE, toN],
      ] as const
      const station = stationOf(straight, [e, n], { extended: true })
      if (!station) throw new Error('no station')
      const back = pointAtChainage(straight, station.chainageMetres, { offsetMetres: station.offsetMetres })
      expect(back?.[0]).toBeCloseTo(e, 7)
      expect(back?.[1]).toBeCloseTo(n, 7)
    }),
    { seed: 3 },
  )
})

test('travelling the other way changes the sign of the offset and measures from the other end', () => {
  const metres = fc.integer({ min: -200, max: 200 })
  const bend = fc.array(fc.tuple(metres, metres), { minLength: 2, maxLength: 6 })
  fc.assert(
    fc.property(bend, fc.tuple(metres, metres), (path, point) => {
      fc.pre(lengthOfLine(path) > 1)
      // A line that turns back upon itself has no sides at the turn.
      fc.pre(path.every((corner, index) => turn(path[index - 1], corner, path[index + 1]) !== 0))
      const there = stationOf(path, point)
      const back = stationOf(path.toReversed(), point)
      if (!there || !back) throw new Error('no station')
      expect(back.distanceMetres).toBeCloseTo(there.distanceMetres, 6)
      // Where two places are equally near, each direction takes its own first.
      fc.pre(Math.abs(lengthOfLine(path) - back.chainageMetres - there.chainageMetres) < 1e-6)
      expect(Math.abs(back.offsetMetres + there.offsetMetres)).toBeLessThan(1e-6)
    }),
    { seed: 4 },
  )
})

test('a line without length has no chainage; a point given twice changes nothing', () => {
  expect(stationOf([[5, 5]], [1, 1])).toBeNull()
  expect(
    stationOf(
      [
        [5, 5],
        [5, 5],
      ],
      [1, 1],
    ),
  ).toBeNull()
  expect(pointAtChainage([], 1)).toBeNull()
  const twice = [line[0], line[1], line[1], line[2]]
  expect(stationOf(twice, [120, 50])?.chainageMetres).toBeCloseTo(150, 9)
  expect(lengthOfLine(twice)).toBe(200)
})

type Corner = readonly [number, number] | undefined

/** Twice the area of the triangle of three corners; 1 where the line has none there. */
function turn(before: Corner, corner: Corner, after: Corner): number {
  if (!before || !corner || !after) return 1
  return (corner[0] - before[0]) * (after[1] - corner[1]) - (corner[1] - before[1]) * (after[0] - corner[0])
}
