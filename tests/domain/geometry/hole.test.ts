import fc from 'fast-check'
import { expect, test } from 'vitest'
import { depthAtLevel, positionAtDepth } from '#domain/geometry/hole.ts'
import { doglegRadians, ratioFactor } from '#domain/geometry/hole-course.ts'

const hole = fc.record({
  eastingMetres: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  northingMetres: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  collarLevelMetres: fc.double({ min: -100, max: 4000, noNaN: true }),
  azimuthDegrees: fc.double({ min: 0, max: 360, noNaN: true }),
  dipDegrees: fc.double({ min: -90, max: 90, noNaN: true }),
})
const depth = fc.double({ min: 0, max: 300, noNaN: true })

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
  const level = {
    eastingMetres: 0,
    northingMetres: 0,
    collarLevelMetres: 3,
    azimuthDegrees: 0,
    dipDegrees: 0,
  }
  expect(depthAtLevel(level, 0)).toBeNull()
})

const station = fc.record({
  course: fc.double({ min: 0.5, max: 30, noNaN: true }),
  azimuthDegrees: fc.double({ min: 0, max: 360, noNaN: true }),
  dipDegrees: fc.double({ min: 60, max: 90, noNaN: true }),
})
const surveyOf = (stations: readonly { course: number; azimuthDegrees: number; dipDegrees: number }[]) => {
  let depthMetres = 0
  return stations.map(({ course, ...direction }) => {
    depthMetres += course
    return { depthMetres, ...direction }
  })
}
const apart = (a: ReturnType<typeof positionAtDepth>, b: ReturnType<typeof positionAtDepth>) =>
  Math.hypot(
    a.eastingMetres - b.eastingMetres,
    a.northingMetres - b.northingMetres,
    a.levelMetres - b.levelMetres,
  )

test('a survey that only says that the hole is straight changes nothing', () => {
  fc.assert(
    fc.property(hole, depth, fc.array(depth, { minLength: 1, maxLength: 5 }), (collar, at, taken) => {
      const { azimuthDegrees, dipDegrees } = collar
      const survey = [...new Set(taken)]
        .sort((a, b) => a - b)
        .map((depthMetres) => ({ depthMetres, azimuthDegrees, dipDegrees }))
      expect(apart(positionAtDepth({ ...collar, survey }, at), positionAtDepth(collar, at))).toBeLessThan(
        1e-6,
      )
    }),
    { seed: 21 },
  )
})

test('a surveyed hole is one smooth line: small steps along it are as long as they say', () => {
  fc.assert(
    fc.property(
      hole,
      fc.array(station, { minLength: 1, maxLength: 6 }),
      fc.double({ min: 0, max: 150, noNaN: true }),
      (collar, stations, at) => {
        const surveyed = {
          ...collar,
          eastingMetres: 0,
          northingMetres: 0,
          dipDegrees: 85,
          survey: surveyOf(stations),
        }
        const step = apart(positionAtDepth(surveyed, at), positionAtDepth(surveyed, at + 1e-3))
        expect(step).toBeCloseTo(1e-3, 6)
      },
    ),
    { seed: 22 },
  )
})

test('azimuth through north is a small turn, and a vertical station has no azimuth', () => {
  const from = { depthMetres: 0, azimuthDegrees: 359, dipDegrees: 80 }
  const to = { depthMetres: 10, azimuthDegrees: 1, dipDegrees: 80 }
  expect((doglegRadians(from, to) * 180) / Math.PI).toBeLessThan(0.4)
  const down = { depthMetres: 0, dipDegrees: 90 }
  expect(doglegRadians({ ...down, azimuthDegrees: 10 }, { ...down, azimuthDegrees: 200 })).toBeLessThan(1e-15)
})

test('a course without a dogleg has a ratio factor of 1, and small ones run on into it', () => {
  expect(ratioFactor(0)).toBe(1)
  expect(Math.abs(ratioFactor(0.99e-4) - ratioFactor(1.01e-4))).toBeLessThan(1e-10)
})
