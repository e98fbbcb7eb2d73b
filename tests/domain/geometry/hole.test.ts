import fc from 'fast-check'
import { expect, test } from 'vitest'
import { depthAtLevel, positionAtDepth } from '#domain/geometry/hole.ts'
import { leaningHole, straightHole } from '../../published/geometry.ts'

const hole = fc.record({
  eastingMetres: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  northingMetres: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  collarLevelMetres: fc.double({ min: -100, max: 4000, noNaN: true }),
  azimuthDegrees: fc.double({ min: 0, max: 360, noNaN: true }),
  dipDegrees: fc.double({ min: -90, max: 90, noNaN: true }),
})
const depth = fc.double({ min: 0, max: 300, noNaN: true })

test(straightHole.source, () => {
  const { hole, depthMetres, position, toleranceMetres } = straightHole
  const given = positionAtDepth(hole, depthMetres)
  for (const key of ['eastingMetres', 'northingMetres', 'levelMetres'] as const)
    expect(Math.abs(given[key] - position[key])).toBeLessThan(toleranceMetres)
})

test('a hole one degree off vertical is elsewhere, at nearly the same level', () => {
  const { dipDegrees, depthMetres, horizontalMetres, verticalMetres, toleranceMetres } = leaningHole
  const collar = { eastingMetres: 0, northingMetres: 0, collarLevelMetres: 0, azimuthDegrees: 90, dipDegrees }
  const given = positionAtDepth(collar, depthMetres)
  expect(Math.abs(given.eastingMetres - horizontalMetres)).toBeLessThan(toleranceMetres)
  expect(Math.abs(given.levelMetres + verticalMetres)).toBeLessThan(toleranceMetres)
})

test('a vertical hole stays at its collar; a dip of 60 over 20 m goes 17.32 m down', () => {
  const collar = {
    eastingMetres: 500030,
    northingMetres: 309990,
    collarLevelMetres: 4.6,
    azimuthDegrees: 77,
    dipDegrees: 90,
  }
  expect(positionAtDepth(collar, 22)).toEqual({
    eastingMetres: 500030,
    northingMetres: 309990,
    levelMetres: -17.4,
  })
  expect(positionAtDepth({ ...collar, dipDegrees: 60 }, 20).levelMetres).toBeCloseTo(4.6 - 17.32, 2)
})

test('points on a hole are as far apart as their depths, and its levels give its depths back', () => {
  fc.assert(
    fc.property(hole, depth, depth, (collar, near, far) => {
      const a = positionAtDepth(collar, near)
      const b = positionAtDepth(collar, far)
      const apart = Math.hypot(
        a.eastingMetres - b.eastingMetres,
        a.northingMetres - b.northingMetres,
        a.levelMetres - b.levelMetres,
      )
      expect(apart).toBeCloseTo(Math.abs(far - near), 5)
      const back = depthAtLevel(collar, a.levelMetres)
      if (Math.abs(collar.dipDegrees) > 1) expect(back).toBeCloseTo(near, 5)
    }),
    { seed: 2 },
  )
  expect(depthAtLevel({ ...straightHole.hole, dipDegrees: 0 }, 0)).toBeNull()
})
