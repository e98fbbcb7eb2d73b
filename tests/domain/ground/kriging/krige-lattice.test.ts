import { describe, expect, test } from 'vitest'
import type { Drift } from '#domain/ground/kriging/drift.ts'
import { krigeAt } from '#domain/ground/kriging/krige-at.ts'
import { krigeLattice } from '#domain/ground/kriging/krige-lattice.ts'
import { buildSystem } from '#domain/ground/kriging/kriging-system.ts'
import type { Variogram } from '#domain/ground/kriging/variogram.ts'
import { accepted } from '../../../published/accepted.ts'

/** Halton points: spread as levelled points are, neither on a grid nor in heaps. */
const halton = (index: number, base: number) => {
  let [share, value] = [1, 0]
  for (let rest = index; rest > 0; rest = Math.floor(rest / base)) {
    share /= base
    value += share * (rest % base)
  }
  return value
}
const points = (count: number, errorVariance: number) =>
  Array.from({ length: count }, (_, index) => {
    const [east, north] = [1000 * halton(index + 1, 2) - 500, 600 * halton(index + 1, 3) - 300]
    return {
      east,
      north,
      value: -30 * Math.exp(-(north ** 2) / 12_000) + 3 * Math.sin(index),
      errorVariance,
    }
  })

const spherical: Variogram = {
  shape: 'spherical',
  partialSill: 110,
  rangeMetres: 400,
  nugget: 4,
  anisotropy: null,
}

/** Greatest error of estimates, and greatest relative error of variances, at nodes spread over the grid. */
function worst(variogram: Variogram, errorVariance: number, drift: Drift = 'mean', side = 160, count = 150) {
  const system = accepted(
    buildSystem(points(count, errorVariance), {
      variogram,
      drift,
      farthestMetres: 1500,
      placeMetres: 1e-6,
      ways: null,
    }),
  )
  const lattice = {
    east: -500,
    north: -300,
    eastStepMetres: 1000 / side,
    northStepMetres: 600 / side,
    columns: side,
    rows: side,
  }
  const steps = krigeLattice(system, lattice, null)
  let step = steps.next()
  while (!step.done) step = steps.next()
  let [ofValue, ofVariance] = [0, 0]
  for (let node = 0; node < side * side; node += 7) {
    const column = node % side
    const { value, variance } = krigeAt(
      system,
      lattice.east + column * lattice.eastStepMetres,
      lattice.north + ((node - column) / side) * lattice.northStepMetres,
    )
    ofValue = Math.max(ofValue, Math.abs((step.value.values[node] as number) - value))
    ofVariance = Math.max(ofVariance, Math.abs((step.value.variances[node] as number) / variance - 1))
  }
  return { ofValue, ofVariance, directly: step.value.solvedDirectly / side ** 2 }
}

describe('a grid against the direct solution at its nodes', () => {
  test.each<[string, Variogram, number, Drift]>([
    ['spherical', spherical, 0, 'mean'],
    ['spherical without nugget', { ...spherical, nugget: 0 }, 0, 'mean'],
    ['spherical with measurement error', { ...spherical, nugget: 0 }, 4, 'plane'],
    ['short spherical', { ...spherical, rangeMetres: 120 }, 0, 'mean'],
    ['exponential', { ...spherical, shape: 'exponential', rangeMetres: 130, nugget: 1 }, 0, 'mean'],
    ['gaussian', { ...spherical, shape: 'gaussian', rangeMetres: 150 }, 0, 'mean'],
    ['Matérn', { ...spherical, shape: 'matern-3/2', rangeMetres: 150, nugget: 0 }, 1, 'mean'],
    ['Matérn 5/2', { ...spherical, shape: 'matern-5/2', rangeMetres: 150, nugget: 0 }, 1, 'mean'],
    ['gaussian without nugget', { ...spherical, shape: 'gaussian', rangeMetres: 150, nugget: 0 }, 1, 'mean'],
    [
      'exponential and anisotropic, without nugget',
      {
        ...spherical,
        shape: 'exponential',
        rangeMetres: 200,
        nugget: 0,
        anisotropy: { azimuthDegrees: 60, ratio: 0.4 },
      },
      0.5,
      'plane',
    ],
    ['power', { ...spherical, shape: 'power', nugget: 0 }, 0, 'mean'],
    [
      'anisotropic',
      { ...spherical, rangeMetres: 600, anisotropy: { azimuthDegrees: 60, ratio: 0.4 } },
      0,
      'mean',
    ],
  ])('%s', (_, variogram, errorVariance, drift) => {
    const { ofValue, ofVariance } = worst(variogram, errorVariance, drift)
    expect(ofValue).toBeLessThan(1e-8)
    expect(ofVariance).toBeLessThan(0.01)
  })

  test.each<[string, Variogram]>([
    ['spherical', spherical],
    ['exponential', { ...spherical, shape: 'exponential', rangeMetres: 130, nugget: 1 }],
    ['power', { ...spherical, shape: 'power', nugget: 0 }],
    [
      'anisotropic',
      {
        ...spherical,
        shape: 'exponential',
        rangeMetres: 300,
        anisotropy: { azimuthDegrees: 60, ratio: 0.4 },
      },
    ],
  ])('%s: in blocks of many nodes, where what far points add is interpolated', (_, variogram) => {
    const { ofValue, ofVariance } = worst(variogram, 0, 'mean', 120, 240)
    expect(ofValue).toBeLessThan(1e-8)
    expect(ofVariance).toBeLessThan(0.01)
  })

  test('a variogram that bends within wide blocks is solved in finer ones, not node by node', () => {
    const along = { ...spherical, anisotropy: { azimuthDegrees: 60, ratio: 0.5 } }
    expect(worst(along, 0, 'mean', 200, 240).directly).toBeLessThan(0.1)
  })

  test('most of a fine grid of many points is not solved directly', () => {
    expect(worst(spherical, 0).directly).toBeLessThan(0.25)
  })

  test('few points are solved directly, to the last digits', () => {
    const { ofVariance, directly } = worst(spherical, 0, 'mean', 40, 30)
    expect(directly).toBe(1)
    expect(ofVariance).toBeLessThan(1e-9)
  })
})
