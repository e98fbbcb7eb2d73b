import { createCorners } from './block-corners.ts'
import { type BlockExtent, type BlockLayout, layBlocks } from './block-layout.ts'
import { dot } from './cholesky.ts'
import { cubicShares, missedShare, type Shares } from './cubic-shares.ts'
import { createFarValuesOfBlock } from './far-values-of-block.ts'
import { heldVariance } from './krige-at.ts'
import type { Lattice } from './krige-lattice.ts'
import type { KrigingSystem } from './kriging-system.ts'
import { neededBlocks, notNeeded, solvedDirectly } from './needed-blocks.ts'
import { createPointsOfBlock } from './points-of-block.ts'
import { solveInReach } from './solve-in-reach.ts'
import { combineRow, farForm, nearForm, variancePartsOf } from './variance-forms.ts'
import { variancesAtMiddles } from './variances-at-middles.ts'

export interface Blocks {
  readonly count: number
  /** Blocks in a row of them. */
  readonly across: number
  /** How many of the nearest points are taken exactly. */
  readonly near: number
  /** What all blocks share; yields the share of the whole that is done. */
  prepare(): Generator<number, void>
  extentOf(index: number): BlockExtent
  /**
   * Estimates and variances of a block. Gives how far the variance at its middle was off the direct solution before
   * it was corrected; infinite where a barrier passes and nothing was solved.
   */
  solve(index: number, near: number): number
}

const nearPoints = 20
/** Where no more points than this are within the covariance's reach, the block needs no interpolation. */
const fewInReach = 90

/**
 * Blocks of nodes about as wide as points lie apart (`widthShare` of it). With κ the covariances and drift terms of a target and S the
 * inverse, the variance is C(0) − κᵀSκ. Split κ into the block's near points and the rest: the near part is taken at
 * every node, the rest is interpolated (cubic, between the corners of 4 × 4 blocks), for which S times the corners'
 * κ is all that is needed. Null where the direct solution is as fast.
 */
export function createBlocks(
  system: KrigingSystem,
  lattice: Lattice,
  wanted: Uint8Array | null,
  values: Float64Array,
  variances: Float64Array,
  widthShare: number,
): Blocks | null {
  const laid = layBlocks(system, lattice, widthShare)
  if (laid === null) return null
  const layout: BlockLayout = laid
  const { size, terms, weights, covariance, knownMean } = system
  const { count, across, wide, tall, eastOf, northOf, extentOf, middleOf } = layout
  const { columns } = lattice
  const n = size - terms
  const needed = neededBlocks(layout, wanted, system.ways)
  const corners = createCorners(system, layout, needed)
  const middles = new Float64Array(count)
  const points = createPointsOfBlock(system, layout)
  const { covariances, weights: activeWeights, fill } = points
  const farValues = createFarValuesOfBlock(system, layout, points)
  const sharesAcross = Array.from({ length: wide }, (_, column) => cubicShares(column / wide))
  const drift = new Float64Array(Math.max(1, terms))

  function* prepare(): Generator<number, void> {
    yield* corners.prepare()
    yield* variancesAtMiddles(system, layout, needed, middles)
  }

  function solve(index: number, nearWanted: number): number {
    if (needed[index] === notNeeded) return 0
    if (needed[index] === solvedDirectly) return Number.POSITIVE_INFINITY
    const near = Math.min(nearWanted, n)
    const active = points.gather(index, near)
    if (active <= fewInReach && active < n) {
      solveInReach(system, layout, points, index, active, values, variances)
      return 0
    }
    const parts = variancePartsOf(system, corners, index, points.order, near)
    const { left, right, low, high } = extentOf(index)
    const [middleColumn, middleRow] = middleOf(index)
    const drawn = farValues?.fit(index, near, active) ? farValues : null
    const filled = drawn ? near : active
    const atCorners = new Float64Array(4 * near)
    const rowForm = new Float64Array(16)
    const { atPlace } = covariance
    for (let row = low; row < high; row++) {
      combineRow(parts, cubicShares((row - low) / tall), atCorners, rowForm)
      drawn?.takeRow(drawn.sharesUp[row - low] as Float64Array)
      for (let column = left; column < right; column++) {
        const node = row * columns + column
        if (wanted && wanted[node] === 0 && !(row === middleRow && column === middleColumn)) continue
        const east = eastOf(column)
        const north = northOf(row)
        fill(east, north, filled)
        let value = knownMean + dot(activeWeights, 0, covariances, 0, filled)
        if (drawn) value += drawn.at(drawn.sharesAcross[column - left] as Float64Array)
        system.fillDrift(east, north, drift, 0)
        for (let term = 0; term < terms; term++)
          value += (weights[n + term] as number) * (drift[term] as number)
        values[node] = value
        const x = sharesAcross[column - left] as Shares
        const form = nearForm(parts.nearInverse, near, atCorners, x, covariances) + farForm(rowForm, x)
        variances[node] = atPlace - form
      }
    }
    return correct(index)
  }

  /** What interpolation misses is nothing at a block's corners and most at its middle, where it is known. */
  function correct(index: number): number {
    const { left, right, low, high } = extentOf(index)
    const [column, row] = middleOf(index)
    const off = (middles[index] as number) - (variances[row * columns + column] as number)
    for (let row = low; row < high; row++)
      for (let column = left; column < right; column++) {
        const node = row * columns + column
        const share = (missedShare((column - left) / wide) + missedShare((row - low) / tall)) / 2
        variances[node] = heldVariance(system, (variances[node] as number) + off * share)
      }
    return Math.abs(off)
  }

  return { count, across, near: nearPoints, prepare, extentOf, solve }
}
