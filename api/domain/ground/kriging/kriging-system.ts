import { accept, type Outcome, reject } from '../../outcome.ts'
import { dot, factorise, inverseOf, solveFactored } from './cholesky.ts'
import { type Covariance, covarianceOf } from './covariance.ts'
import { isotropicAxes, type Variogram } from './variogram.ts'

/** What the value is expected to be before any reading: a constant not known, a plane not known, or a known mean. */
export type Drift = 'mean' | 'plane' | 'slope-east' | { readonly knownMean: number }

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

export type SideOfBarrier = (east: number, north: number) => number

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

const termsOf = { mean: 1, 'slope-east': 2, plane: 3 }

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

/** Terms of the drift, coordinates centred and scaled so that none of them outweighs another. */
function driftOf(
  drift: Drift,
  points: readonly KrigingPoint[],
  sides: readonly SideOfBarrier[],
): KrigingSystem['fillDrift'] {
  const mean = (of: (point: KrigingPoint) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length
  const [east0, north0] = [mean(({ east }) => east), mean(({ north }) => north)]
  const scale =
    points.reduce(
      (most, { east, north }) => Math.max(most, Math.abs(east - east0), Math.abs(north - north0)),
      0,
    ) || 1
  return (east, north, out, at) => {
    if (typeof drift === 'object') return
    out[at] = 1
    if (drift !== 'mean') out[at + 1] = (east - east0) / scale
    if (drift === 'plane') out[at + 2] = (north - north0) / scale
    sides.forEach((side, index) => {
      out[at + termsOf[drift] + index] = side(east, north)
    })
  }
}

/** With W = C⁻¹F and A = FᵀW: [C⁻¹ − W A⁻¹ Wᵀ, W A⁻¹; A⁻¹ Wᵀ, −A⁻¹]. Null where A is singular. */
function borderedInverse(
  factor: Float64Array,
  n: number,
  terms: number,
  points: readonly KrigingPoint[],
  fillDrift: KrigingSystem['fillDrift'],
): Float64Array | null {
  const plain = inverseOf(factor, n)
  if (terms === 0) return plain
  const f = driftColumns(n, terms, points, fillDrift)
  const w = f.map((column) => {
    const solved = column.slice()
    solveFactored(factor, n, solved)
    return solved
  })
  const a = new Float64Array(terms * terms)
  for (let i = 0; i < terms; i++)
    for (let j = 0; j < terms; j++)
      a[i * terms + j] = dot(f[i] as Float64Array, 0, w[j] as Float64Array, 0, n)
  if (factorise(a, terms, 1e-10 * (a[0] as number)) >= 0) return null
  const inverseA = inverseOf(a, terms)
  const size = n + terms
  const inverse = new Float64Array(size * size)
  const b = Array.from({ length: terms }, (_, i) => {
    const column = new Float64Array(n)
    for (let j = 0; j < terms; j++)
      for (let row = 0; row < n; row++)
        column[row] = (column[row] as number) + (w[j]?.[row] as number) * (inverseA[i * terms + j] as number)
    return column
  })
  for (let row = 0; row < n; row++) {
    for (let column = 0; column < n; column++) {
      let entry = plain[row * n + column] as number
      for (let j = 0; j < terms; j++) entry -= (w[j]?.[row] as number) * (b[j]?.[column] as number)
      inverse[row * size + column] = entry
    }
    for (let i = 0; i < terms; i++) {
      inverse[row * size + n + i] = b[i]?.[row] as number
      inverse[(n + i) * size + row] = b[i]?.[row] as number
    }
  }
  for (let i = 0; i < terms; i++)
    for (let j = 0; j < terms; j++) inverse[(n + i) * size + n + j] = -(inverseA[i * terms + j] as number)
  return inverse
}

function driftColumns(
  n: number,
  terms: number,
  points: readonly KrigingPoint[],
  fillDrift: KrigingSystem['fillDrift'],
): readonly Float64Array[] {
  const columns = Array.from({ length: terms }, () => new Float64Array(n))
  const row = new Float64Array(terms)
  points.forEach(({ east, north }, index) => {
    fillDrift(east, north, row, 0)
    columns.forEach((column, term) => {
      column[index] = row[term] as number
    })
  })
  return columns
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
