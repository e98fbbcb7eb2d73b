import { describe, expect, test } from 'vitest'
import { factorise } from '#domain/ground/kriging/cholesky.ts'
import { fitAnisotropy } from '#domain/ground/kriging/fit-anisotropy.ts'
import type { KrigingPoint } from '#domain/ground/kriging/kriging-system.ts'
import { isotropicAxes, semivariance, type Variogram } from '#domain/ground/kriging/variogram.ts'

const seeded = (seed: number) => {
  let state = seed
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0
    return ((state >>> 0) + 0.5) / 2 ** 32
  }
}
const normal = (random: () => number) => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())

/** Places on a disc, alike in every direction, with values that a variogram would give. */
function ground(seed: number, variogram: Variogram, count = 80): readonly KrigingPoint[] {
  const random = seeded(seed)
  const places = Array.from({ length: count }, () => {
    const [radius, angle] = [100 * Math.sqrt(random()), 2 * Math.PI * random()]
    return { east: radius * Math.cos(angle), north: radius * Math.sin(angle) }
  })
  const [a, b, c, d] = isotropicAxes(variogram.anisotropy)
  const sill = variogram.partialSill + variogram.nugget
  const factor = Float64Array.from({ length: count * count }, (_, at) => {
    const [one, other] = [places[Math.floor(at / count)], places[at % count]] as [
      { east: number; north: number },
      { east: number; north: number },
    ]
    const [e, n] = [one.east - other.east, one.north - other.north]
    return sill - semivariance(variogram, Math.hypot(a * e + b * n, c * e + d * n)) + (e === 0 ? 1e-9 : 0)
  })
  expect(factorise(factor, count, 0)).toBe(-1)
  const free = places.map(() => normal(random))
  return places.map((place, row) => ({
    ...place,
    value: free
      .slice(0, row + 1)
      .reduce((sum, one, column) => sum + one * (factor[row * count + column] as number), 0),
    errorVariance: 0.01,
  }))
}

const isotropic: Variogram = {
  shape: 'spherical',
  partialSill: 4,
  rangeMetres: 60,
  nugget: 0,
  anisotropy: null,
}
const turned = (places: readonly KrigingPoint[], degrees: number) => {
  const angle = (degrees * Math.PI) / 180
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)]
  return places.map((place) => ({
    ...place,
    east: place.east * cos + place.north * sin,
    north: place.north * cos - place.east * sin,
  }))
}
const bearingApart = (one: number, other: number) => Math.abs(((one - other + 270) % 180) - 90)

describe('likeness by direction', () => {
  const along = { ...isotropic, rangeMetres: 110, anisotropy: { azimuthDegrees: 35, ratio: 0.3 } }
  const seeds = Array.from({ length: 30 }, (_, at) => 17 * at + 3)

  test('is found, with its bearing and ratio, where the ground has one', () => {
    const found = seeds.flatMap((seed) => fitAnisotropy(ground(seed, along), isotropic).anisotropy ?? [])
    expect(found.length).toBeGreaterThan(24)
    const off = found.map(({ azimuthDegrees }) => bearingApart(azimuthDegrees, 35)).toSorted((a, b) => a - b)
    expect(off[Math.floor(found.length / 2)]).toBeLessThan(6)
    const ratios = found.map(({ ratio }) => ratio).toSorted((a, b) => a - b)
    expect(ratios[Math.floor(found.length / 2)]).toBeGreaterThan(0.2)
    expect(ratios[Math.floor(found.length / 2)]).toBeLessThan(0.45)
  })

  test('turns with the points', () => {
    for (const seed of seeds.slice(0, 8)) {
      const places = ground(seed, along)
      const one = fitAnisotropy(places, isotropic).anisotropy
      for (const degrees of [25, 60, 90, 140]) {
        const other = fitAnisotropy(turned(places, degrees), isotropic).anisotropy
        expect(other === null).toBe(one === null)
        if (!one || !other) continue
        expect(bearingApart(other.azimuthDegrees, one.azimuthDegrees + degrees)).toBeLessThan(3)
        expect(other.ratio).toBeCloseTo(one.ratio, 1)
      }
    }
  })

  test('is not found where the ground has none, but for what chance allows', () => {
    const found = seeds.flatMap((seed) => fitAnisotropy(ground(seed, isotropic), isotropic).anisotropy ?? [])
    expect(found.length).toBeLessThan(3)
  })

  test('is not found in a bowl that is round', () => {
    const places = ground(5, isotropic).map((place) => ({
      ...place,
      value: 20 * Math.exp(-(place.east ** 2 + place.north ** 2) / 2000),
    }))
    const { anisotropy, sentence } = fitAnisotropy(places, { ...isotropic, shape: 'gaussian' })
    expect(anisotropy).toBeNull()
    expect(sentence).toMatch(/alike in every direction.*only \d+\.\d.*pairs along/)
  })

  test('needs pairs along and across', () => {
    const places = Array.from({ length: 40 }, (_, at) => ({
      east: 10 * at,
      north: at % 2,
      value: Math.sin(at / 3),
      errorVariance: 0.01,
    }))
    const { anisotropy, sentence } = fitAnisotropy(places, isotropic)
    expect(anisotropy).toBeNull()
    expect(sentence).toContain('30 of each are needed')
  })

  test('of many places is judged by some, and says so', () => {
    const places = ground(9, along, 300)
    const { anisotropy, sentence } = fitAnisotropy(places, isotropic)
    expect(anisotropy).not.toBeNull()
    expect(sentence).toContain('by 100 of 300 places')
  })
})
