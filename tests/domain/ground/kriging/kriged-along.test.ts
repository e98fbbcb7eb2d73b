import { expect, test } from 'vitest'
import { krigedAlong } from '#domain/ground/kriging/kriged-along.ts'
import { accepted } from '../../../published/accepted.ts'

const variogram = {
  shape: 'spherical',
  partialSill: 20,
  rangeMetres: 30,
  nugget: 0,
  anisotropy: null,
} as const
const options = { unit: 'mm', drift: 'ordinary', variogram } as const
const onLine = [0, -5, -12, -5, 0].map((value, index) => ({
  id: String(index),
  eastingMetres: 1000 + 10 * index,
  northingMetres: 2000,
  value,
  standardUncertainty: 0,
  late: index > 4,
}))

test('points on one line are estimated along it (KRG-26), honoured at the points, and a plane is refused', () => {
  const { estimates } = accepted(
    krigedAlong(
      onLine,
      [
        [1015, 2000],
        [1020, 2000],
      ],
      options,
    ),
  )
  expect(estimates[0]?.value).toBeCloseTo(-8.69294425, 6)
  expect(estimates[0]?.variance).toBeCloseTo(5.08179063, 6)
  expect(estimates[1]?.value).toBeCloseTo(-12, 9)
  expect(estimates[1]?.variance).toBeCloseTo(0, 9)
  const plane = krigedAlong(onLine, [[1015, 2000]], { ...options, drift: 'universal' })
  expect(plane.ok ? null : plane.issues[0]?.code).toBe('drift-undetermined')
})

test('one point says of another place only itself, with twice the semivariance', () => {
  const { estimates } = accepted(krigedAlong(onLine.slice(2, 3), [[1030, 2000]], options))
  expect(estimates[0]?.value).toBeCloseTo(-12, 12)
  expect(estimates[0]?.variance).toBeCloseTo(2 * 20 * (0.5 - 0.5 / 27), 9)
})
