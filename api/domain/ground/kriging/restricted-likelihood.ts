import { dot, factorise, solveFactored } from './cholesky.ts'
import type { KrigingPoint } from './kriging-system.ts'
import { isotropicAxes, type Variogram } from './variogram.ts'
import { variogramShare } from './variogram-shape.ts'

/** A variogram up to its level: what the likelihood finds the level of by itself. */
export type VariogramForm = Pick<Variogram, 'shape' | 'rangeMetres' | 'anisotropy'> & {
  /** Nugget of the ground over the partial sill, 0 or more. */
  readonly nuggetShare: number
}

/**
 * Restricted log-likelihood of values around one mean that is not known, its partial sill at its best (Patterson &
 * Thompson 1971): −((n−1)·ln s² + ln|R| + ln 1ᵀR⁻¹1) / 2, R the covariances over the sill, s² the values' own sill. Only
 * differences between forms, of the same places, mean anything. `errorShares`: each place's error variance over the
 * sill. Minus infinity where R cannot be factored.
 */
export function restrictedLogLikelihood(
  places: readonly KrigingPoint[],
  { shape, rangeMetres, anisotropy, nuggetShare }: VariogramForm,
  errorShares: Float64Array,
): number {
  const n = places.length
  const axes = isotropicAxes(anisotropy)
  const u = Float64Array.from(places, ({ east, north }) => axes[0] * east + axes[1] * north)
  const v = Float64Array.from(places, ({ east, north }) => axes[2] * east + axes[3] * north)
  const matrix = new Float64Array(n * n)
  for (let row = 0; row < n; row++) {
    const [own, across] = [u[row] as number, v[row] as number]
    for (let column = 0; column < row; column++) {
      const apart = Math.sqrt((own - (u[column] as number)) ** 2 + (across - (v[column] as number)) ** 2)
      // Asked for some hundred thousand times in a fit; the exact share near nought is not needed here.
      matrix[row * n + column] =
        shape === 'exponential'
          ? Math.exp(-apart / rangeMetres)
          : 1 - variogramShare(shape, apart, rangeMetres)
    }
    matrix[row * n + row] = 1 + nuggetShare + (errorShares[row] as number)
  }
  if (factorise(matrix, n, 1e-12) >= 0) return Number.NEGATIVE_INFINITY
  const values = Float64Array.from(places, ({ value }) => value)
  const ones = new Float64Array(n).fill(1)
  const weights = ones.slice()
  solveFactored(matrix, n, weights)
  const information = dot(weights, 0, ones, 0, n)
  const mean = dot(weights, 0, values, 0, n) / information
  const rest = values.map((value) => value - mean)
  const solved = rest.slice()
  solveFactored(matrix, n, solved)
  let logPivots = 0
  for (let row = 0; row < n; row++) logPivots += Math.log(matrix[row * n + row] as number)
  const sill = dot(rest, 0, solved, 0, n) / (n - 1)
  return sill > 0
    ? -((n - 1) * Math.log(sill) + 2 * logPivots + Math.log(information)) / 2
    : Number.NEGATIVE_INFINITY
}
