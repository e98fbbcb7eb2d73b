import { dot } from './cholesky.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** An estimate and its kriging variance (of the ground, without what an instrument would add). */
export interface Estimate {
  readonly value: number
  readonly variance: number
}

/** The direct solution at a target, its coordinates from the system's origin. See `heldVariance` for variances below 0. */
export function krigeAt(system: KrigingSystem, east: number, north: number): Estimate {
  const { size, inverse, weights, covariance, knownMean } = system
  const right = rightSide(system, east, north)
  let quadratic = 0
  for (let row = 0; row < size; row++)
    quadratic += (right[row] as number) * dot(inverse, row * size, right, 0, size)
  return {
    value: knownMean + dot(weights, 0, right, 0, size),
    variance: heldVariance(system, covariance.atPlace - quadratic),
  }
}

/**
 * Rounding below 0 is 0. Ways around a barrier's end can give less than rounding explains, and then no variance is
 * known: NaN, never a false certainty.
 */
export function heldVariance({ ways, covariance }: KrigingSystem, variance: number): number {
  return ways !== null && variance < -1e-9 * covariance.atPlace ? Number.NaN : Math.max(0, variance)
}

/** Weight of each point in the estimate at a target. */
export function krigingWeights(system: KrigingSystem, east: number, north: number): readonly number[] {
  const right = rightSide(system, east, north)
  return system.points.map((_, row) => dot(system.inverse, row * system.size, right, 0, system.size))
}

function rightSide({ size, terms, fillCovariances, fillDrift }: KrigingSystem, east: number, north: number) {
  const right = new Float64Array(size)
  fillCovariances(east, north, right, 0)
  fillDrift(east, north, right, size - terms)
  return right
}
