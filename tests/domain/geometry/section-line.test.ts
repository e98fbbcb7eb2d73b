import { expect, test } from 'vitest'
import { projectOntoSection } from '#domain/geometry/section-line.ts'

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
