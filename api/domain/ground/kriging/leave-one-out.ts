import { dot } from './cholesky.ts'
import type { KrigingSystem } from './kriging-system.ts'

/** A reading against what all the others say of it. */
export interface LeftOut {
  readonly index: number
  readonly estimate: number
  /** Of the reading less its estimate: the ground's and the instrument's together. */
  readonly variance: number
  /** (observed − estimate) / √variance. */
  readonly standardised: number
}

export interface LeaveOneOut {
  readonly points: readonly LeftOut[]
  /** Mean squared standardised error: near 1 where the variogram is right, above where it promises too much. */
  readonly meanSquaredRatio: number
}

/** Every point left out in turn, from the one inverse (Dubrule 1983): error = (B z)ᵢ / Bᵢᵢ, variance = 1 / Bᵢᵢ. */
export function leaveOneOut({ points, size, inverse, knownMean }: KrigingSystem): LeaveOneOut {
  const values = Float64Array.from(points, ({ value }) => value - knownMean)
  const left = points.map(({ value }, index) => {
    const own = inverse[index * size + index] as number
    const error = dot(inverse, index * size, values, 0, values.length) / own
    return { index, estimate: value - error, variance: 1 / own, standardised: error * Math.sqrt(own) }
  })
  return {
    points: left,
    meanSquaredRatio: left.reduce((sum, { standardised }) => sum + standardised ** 2, 0) / left.length,
  }
}
