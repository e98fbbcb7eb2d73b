import { quadraticForms } from './batch-products.ts'
import type { BlockLayout } from './block-layout.ts'
import { dot } from './cholesky.ts'
import type { KrigingSystem } from './kriging-system.ts'
import type { PointsOfBlock } from './points-of-block.ts'

/**
 * Estimates and variances of a block whose gathered points are all that its nodes are correlated with: all other
 * covariances are 0, so these points and the drift are the whole, and nothing is off.
 */
export function solveInReach(
  system: KrigingSystem,
  { lattice, wide, eastOf, northOf, extentOf }: BlockLayout,
  { order, covariances, fill }: PointsOfBlock,
  index: number,
  active: number,
  values: Float64Array,
  variances: Float64Array,
): void {
  const { size, terms, inverse, weights, knownMean, covariance } = system
  const n = size - terms
  const whole = active + terms
  const part = new Float64Array(whole * whole)
  const placeOf = (at: number) => (at < active ? (order[at] as number) : n + at - active)
  for (let i = 0; i < whole; i++)
    for (let j = 0; j < whole; j++) part[i * whole + j] = inverse[placeOf(i) * size + placeOf(j)] as number
  const { left, right, low, high } = extentOf(index)
  const ownWeights = Float64Array.from({ length: whole }, (_, at) => weights[placeOf(at)] as number)
  const targets = new Float64Array(wide * whole)
  const forms = new Float64Array(wide)
  for (let row = low; row < high; row++) {
    for (let column = left; column < right; column++) {
      const from = (column - left) * whole
      fill(eastOf(column), northOf(row), active)
      targets.set(covariances.subarray(0, active), from)
      system.fillDrift(eastOf(column), northOf(row), targets, from + active)
    }
    quadraticForms(part, whole, targets, right - left, forms)
    for (let column = left; column < right; column++) {
      const node = row * lattice.columns + column
      values[node] = knownMean + dot(ownWeights, 0, targets, (column - left) * whole, whole)
      variances[node] = Math.max(0, covariance.atPlace - (forms[column - left] as number))
    }
  }
}
