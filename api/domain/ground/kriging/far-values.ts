import { chebyshevPlaces, chebyshevShares } from './chebyshev.ts'
import type { Covariance } from './covariance.ts'

/** Weighted covariances of points far from a block, at the places of a small grid over it, and between them. */
export interface FarValues {
  /** Sums them up at the grid's places for the first `count` of the points given. */
  fit(block: Frame, us: Float64Array, vs: Float64Array, weights: Float64Array, count: number): void
  /** Draws the grid together to one row; `at` then reads along it. Both by shares of `farShares`. */
  takeRow(shares: Float64Array): void
  at(shares: Float64Array): number
}

/** The south-west corner of a block and its two sides, in the frame where the variogram is alike in every direction. */
export interface Frame {
  readonly u: number
  readonly v: number
  readonly eastwards: readonly [u: number, v: number]
  readonly northwards: readonly [u: number, v: number]
}

/** Enough for nine digits where no point is nearer to a block's middle than some twice its half diagonal. */
const perSide = 9

const places = chebyshevPlaces(perSide)

export const farShares = (t: number): Float64Array => chebyshevShares(t, perSide)

/** A covariance that is smooth but at no distance is a polynomial over a block that its point is far from. */
export function createFarValues(covariance: Covariance, points: number): FarValues {
  const grid = new Float64Array(perSide * perSide)
  const row = new Float64Array(perSide)
  const covariances = new Float64Array(points)
  return {
    fit({ u, v, eastwards, northwards }, us, vs, weights, count) {
      for (let y = 0; y < perSide; y++)
        for (let x = 0; x < perSide; x++) {
          const [east, north] = [places[x] as number, places[y] as number]
          covariance.fill(
            u + east * eastwards[0] + north * northwards[0],
            v + east * eastwards[1] + north * northwards[1],
            us,
            vs,
            count,
            covariances,
            0,
            -1,
          )
          let sum = 0
          for (let point = 0; point < count; point++)
            sum += (weights[point] as number) * (covariances[point] as number)
          grid[y * perSide + x] = sum
        }
    },
    takeRow(shares) {
      row.fill(0)
      for (let y = 0; y < perSide; y++)
        for (let x = 0; x < perSide; x++)
          row[x] = (row[x] as number) + (shares[y] as number) * (grid[y * perSide + x] as number)
    },
    at(shares) {
      let sum = 0
      for (let x = 0; x < perSide; x++) sum += (shares[x] as number) * (row[x] as number)
      return sum
    },
  }
}
