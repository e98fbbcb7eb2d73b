import { accept, type Outcome, reject } from '../../outcome.ts'
import { borderedInverse } from './bordered-inverse.ts'
import { dot, factorise, solveFactored } from './cholesky.ts'
import { type Covariance, covarianceOf } from './covariance.ts'
import { type Drift, driftColumns, driftOf, type SideOfBarrier, termsOf } from './drift.ts'
import { isotropicAxes, type Variogram } from './variogram.ts'

/** A place with a value, its coordinates from the system's origin. */
export interface KrigingPoint {
  readonly east: number
  readonly north: number
  readonly value: number
  /** Variance of what the instrument adds; 0: the value is honoured exactly. */
  readonly errorVariance: number
}

/** Covariances between a target and every point, into `out` from `at`; smooth: the nugget is not met at a point. */
export type FillCovariances = (
  east: number,
  north: number,
  out: Float64Array,
  at: number,
  smooth?: boolean,
) => void

/** One factorisation, from which every estimate and variance follows. */
export interface KrigingSystem {
  readonly points: readonly KrigingPoint[]
  readonly covariance: Covariance
  readonly axes: readonly [number, number, number, number]
  /** Of the points, in the frame where the variogram is alike in every direction. */
  readonly u: Float64Array
  readonly v: Float64Array
  /** Points, then drift terms: the size of everything below. */
  readonly size: number
  readonly terms: number
  /** Inverse of [C F; Fᵀ 0], symmetric, row-major. */
  readonly inverse: Float64Array
  /** Estimate = known mean + weights · [covariances, drift terms]. */
  readonly weights: Float64Array
  readonly knownMean: number
  /** The drift's terms at a target, into `out` from `at`. */
  fillDrift(east: number, north: number, out: Float64Array, at: number): void
  readonly fillCovariances: FillCovariances
  /** Null: every distance is the plain one, with no barrier between. */
  readonly ways: Ways | null
  /** Added to every error variance so that the matrix could be factored; 0 where nothing was. */
  readonly addedVariance: number
}

export interface SystemChoice {
  readonly variogram: Variogram
  readonly drift: Drift
  /** Greatest distance that will be asked for. */
  readonly farthestMetres: number
  /** Positions closer than this are one place. */
  readonly placeMetres: number
  /** Where barriers lengthen the way: distances between points, and from a target to each point; else null. */
  readonly ways: Ways | null
  /** Further drift terms, each from -1 to 1: which side of a barrier that ends inside a place lies on. */
  readonly sides?: readonly SideOfBarrier[]
}

/** Lengths of the shortest ways that no barrier crosses, metres; infinite where there is none. */
export interface Ways {
  between(one: number, other: number): number
  /** From a target to every point. */
  fill(east: number, north: number, out: Float64Array): void
  /** Whether a barrier may pass through a box. */
  passes(lowEast: number, lowNorth: number, highEast: number, highNorth: number): boolean
}

/** Refused where the matrix is singular: points too close for a smooth variogram without any error. */
export function buildSystem(points: readonly KrigingPoint[], choice: SystemChoice): Outcome<KrigingSystem> {
  const { variogram, drift, ways } = choice
  const axes = isotropicAxes(variogram.anisotropy)
  const n = points.length
  const u = Float64Array.from(points, ({ east, north }) => axes[0] * east + axes[1] * north)
  const v = Float64Array.from(points, ({ east, north }) => axes[2] * east + axes[3] * north)
  const stretch = variogram.anisotropy ? 1 / variogram.anisotropy.ratio : 1
  const covariance = covarianceOf(variogram, choice.farthestMetres * stretch, choice.placeMetres)
  const matrix = new Float64Array(n * n)
  for (let row = 0; row < n; row++) {
    if (ways)
      for (let column = 0; column < row; column++)
        matrix[row * n + column] = covariance.at(ways.between(row, column))
    else
      covariance.fill(u[row] as number, v[row] as number, u, v, row, matrix, row * n, covariance.placeSquared)
    matrix[row * n + row] = covariance.atPlace + (points[row] as KrigingPoint).errorVariance
  }
  const factored = factorWithRepair(matrix, n, covariance.atPlace, ways !== null)
  if (factored === null)
    return reject({
      code: 'kriging-singular',
      value: String(n),
      expected: 'points whose covariances can be told apart',
      message: `The equations of ${n} points cannot be solved with a ${variogram.shape} variogram of range ${round(variogram.rangeMetres)} m and nugget ${round(variogram.nugget)}: some points are too close together for it. Give the points a standard uncertainty, or the variogram a nugget.`,
    })
  const sides = choice.sides ?? []
  const fillDrift = driftOf(drift, points, sides)
  const terms = typeof drift === 'object' ? 0 : termsOf[drift] + sides.length
  const knownMean = typeof drift === 'object' ? drift.knownMean : 0
  const size = n + terms
  const inverse = borderedInverse(factored.factor, n, terms, points, fillDrift)
  if (inverse === null)
    return reject({
      code: 'drift-undetermined',
      value: String(n),
      expected: 'points on both sides of a line',
      message: `A plane cannot be fitted through ${n} points that lie on one line or at fewer than three places: across the line nothing is measured. Choose a constant mean, or add points beside the line.`,
    })
  const weights = new Float64Array(size)
  const values = Float64Array.from(points, ({ value }) => value - knownMean)
  for (let row = 0; row < size; row++) weights[row] = dot(inverse, row * size, values, 0, n)
  refine(weights, factored.factor, values, points, n, terms, fillDrift)
  const lengths = new Float64Array(n)
  return accept({
    points,
    covariance,
    axes,
    u,
    v,
    size,
    terms,
    inverse,
    weights,
    knownMean,
    fillDrift,
    fillCovariances: ways
      ? (east, north, out, at) => {
          ways.fill(east, north, lengths)
          for (let index = 0; index < n; index++) out[at + index] = covariance.at(lengths[index] as number)
        }
      : (east, north, out, at, smooth = false) =>
          covariance.fill(
            axes[0] * east + axes[1] * north,
            axes[2] * east + axes[3] * north,
            u,
            v,
            n,
            out,
            at,
            smooth ? -1 : covariance.placeSquared,
          ),
    ways,
    addedVariance: factored.added,
  })
}

/** Ways around barriers need not give a valid covariance; the least power of ten of a share of the sill that mends it is added. */
function factorWithRepair(
  matrix: Float64Array,
  n: number,
  atPlace: number,
  mayRepair: boolean,
): { readonly factor: Float64Array; readonly added: number } | null {
  for (let added = 0; added <= 0.05 * atPlace; added = added === 0 ? 1e-6 * atPlace : 2 * added) {
    const factor = matrix.slice()
    for (let row = 0; row < n; row++) factor[row * n + row] = (factor[row * n + row] as number) + added
    if (factorise(factor, n, 1e-13 * atPlace) < 0) return { factor, added }
    if (!mayRepair) return null
  }
  return null
}

/** The point weights once more from the factor, so that readings without error are met to the last digits. */
function refine(
  weights: Float64Array,
  factor: Float64Array,
  values: Float64Array,
  points: readonly KrigingPoint[],
  n: number,
  terms: number,
  fillDrift: KrigingSystem['fillDrift'],
): void {
  const rest = values.slice()
  driftColumns(n, terms, points, fillDrift).forEach((column, term) => {
    for (let row = 0; row < n; row++)
      rest[row] = (rest[row] as number) - (weights[n + term] as number) * (column[row] as number)
  })
  solveFactored(factor, n, rest)
  weights.set(rest)
}

const round = (value: number) => Number(value.toPrecision(4))
