import type { BlockLayout } from './block-layout.ts'
import { dot } from './cholesky.ts'
import { createFarValues, type FarValues, farShares } from './far-values.ts'
import type { KrigingSystem } from './kriging-system.ts'
import type { PointsOfBlock } from './points-of-block.ts'

/** What the far points of a block add to its estimates, read off a polynomial. */
export interface FarValuesOfBlock extends Pick<FarValues, 'takeRow' | 'at'> {
  /** Shares by column or row of a whole block. */
  readonly sharesAcross: readonly Float64Array[]
  readonly sharesUp: readonly Float64Array[]
  /**
   * Whether they may be read off it: they are far, and at the block's middle and at a corner the polynomial is their
   * sum to nine digits of the largest value. `active` points are gathered, the first `near` of them not far.
   */
  fit(index: number, near: number, active: number): boolean
}

/** Null where ways run around barriers, or the covariance has an end. */
export function createFarValuesOfBlock(
  { points, covariance, ways, axes, knownMean }: KrigingSystem,
  { lattice, wide, tall, eastOf, northOf, extentOf }: BlockLayout,
  ofBlock: PointsOfBlock,
): FarValuesOfBlock | null {
  // Within a finite reach a covariance has an edge that no polynomial follows, and fewer points are met at all.
  if (ways !== null || covariance.reachSquared !== Number.POSITIVE_INFINITY) return null
  const values = createFarValues(covariance, points.length)
  const covariances = new Float64Array(points.length)
  const sharesAcross = Array.from({ length: wide }, (_, column) => farShares(column / wide))
  const sharesUp = Array.from({ length: tall }, (_, row) => farShares(row / tall))
  const largest = points.reduce((most, { value }) => Math.max(most, Math.abs(value - knownMean)), 0)
  const { eastStepMetres, northStepMetres } = lattice
  const eastwards = [axes[0] * wide * eastStepMetres, axes[2] * wide * eastStepMetres] as const
  const northwards = [axes[1] * tall * northStepMetres, axes[3] * tall * northStepMetres] as const
  const halfDiagonal =
    Math.max(
      Math.hypot(eastwards[0] + northwards[0], eastwards[1] + northwards[1]),
      Math.hypot(eastwards[0] - northwards[0], eastwards[1] - northwards[1]),
    ) / 2

  function fit(index: number, near: number, active: number): boolean {
    if (active === near || ofBlock.distanceSquared(near - 1) < (1.8 * halfDiagonal) ** 2) return false
    const { left, low } = extentOf(index)
    const u = axes[0] * eastOf(left) + axes[1] * northOf(low)
    const v = axes[2] * eastOf(left) + axes[3] * northOf(low)
    const weights = ofBlock.weights.subarray(near, active)
    const [us, vs] = [ofBlock.u.subarray(near, active), ofBlock.v.subarray(near, active)]
    values.fit({ u, v, eastwards, northwards }, us, vs, weights, active - near)
    for (const [x, y] of [
      [0, 0],
      [wide >> 1, tall >> 1],
      [wide - 1, tall >> 2],
    ] as const) {
      const [right, up] = [x / wide, y / tall]
      const [ownU, ownV] = [
        u + right * eastwards[0] + up * northwards[0],
        v + right * eastwards[1] + up * northwards[1],
      ]
      covariance.fill(ownU, ownV, us, vs, active - near, covariances, 0, -1)
      values.takeRow(sharesUp[y] as Float64Array)
      const off = values.at(sharesAcross[x] as Float64Array) - dot(weights, 0, covariances, 0, active - near)
      if (!(Math.abs(off) <= 1e-10 * largest)) return false
    }
    return true
  }

  return { sharesAcross, sharesUp, fit, takeRow: values.takeRow, at: values.at }
}
