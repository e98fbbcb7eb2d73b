import { expect, test } from 'vitest'
import { projectOntoSection } from '#domain/geometry/section-line.ts'
import { straightSection } from '../../published/geometry.ts'

test(straightSection.source, () => {
  const { origin, azimuthDegrees, point, chainageMetres, offsetMetres } = straightSection
  const azimuth = (azimuthDegrees * Math.PI) / 180
  const end = [origin[0] + 500 * Math.sin(azimuth), origin[1] + 500 * Math.cos(azimuth)] as const
  const position = { eastingMetres: point[0], northingMetres: point[1], levelMetres: -3 }
  const [on] = projectOntoSection([origin, end], [position], 50)
  expect(on?.chainageMetres).toBeCloseTo(chainageMetres, 6)
  expect(on?.offsetMetres).toBeCloseTo(offsetMetres, 6)
  expect(on?.levelMetres).toBe(-3)
})

test('positions too far away or beyond the ends are not seen, and keep their place in the list', () => {
  const line = [
    [0, 0],
    [100, 0],
    [100, 50],
  ] as const
  const at = (eastingMetres: number, northingMetres: number) => ({
    eastingMetres,
    northingMetres,
    levelMetres: 0,
  })
  const seen = projectOntoSection(line, [at(50, 5), at(50, 20), at(-1, 0), at(103, 30), at(100, 51)], 10)
  expect(seen.map((on) => on && [on.chainageMetres, on.offsetMetres, on.segment])).toEqual([
    [50, -5, 0],
    null,
    null,
    [130, 3, 1],
    null,
  ])
})
