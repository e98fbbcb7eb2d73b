import { accept, type Outcome, reject } from '../outcome.ts'
import { mean } from './spread.ts'

/** A fitted plane y = b₀ + b₁x₁ + b₂x₂ + …, with standard errors. */
export interface PlaneFit {
  /** Intercept first, then one for each column. */
  readonly coefficients: readonly number[]
  readonly standardErrors: readonly number[]
  /** Of the residuals, n − p − 1 degrees of freedom. */
  readonly residualStandardDeviation: number
  readonly degreesOfFreedom: number
  /** Share of the variance explained; NaN where y does not vary. */
  readonly rSquared: number
}

/**
 * Least squares on several columns of equal length, by Householder reflections of columns centred about their means
 * and brought to one length (Golub and Van Loan, Matrix Computations, 5.3; held against NIST StRD's Longley):
 * normal equations would lose half the digits. Refused where columns nearly repeat each other, where rows do not
 * outnumber the coefficients, and for what is not a number.
 */
export function fitPlane(columns: readonly (readonly number[])[], y: readonly number[]): Outcome<PlaneFit> {
  const rows = y.length
  const count = columns.length
  if (columns.some((column) => column.length !== rows) || rows <= count + 1)
    return refuse(
      'rows-too-few',
      `A fit of ${count + 1} coefficients needs more than ${count + 1} complete rows; there are ${rows}.`,
      rows,
    )
  if (![...columns, y].every((column) => column.every(Number.isFinite)))
    return refuse('number-expected', 'A row of the fit holds what is not a number; leave it out.', rows)
  const means = columns.map(mean)
  const meanY = mean(y)
  const centred = columns.map((column, at) => column.map((x) => x - (means[at] as number)))
  const lengths = centred.map((column) => Math.hypot(...column))
  if (lengths.some((length) => length === 0))
    return refuse('plane-undetermined', 'A column of the fit never varies; leave it out.', count)
  const q = centred.map((column, at) => column.map((x) => x / (lengths[at] as number)))
  const rest = y.map((value) => value - meanY)
  const total = rest.reduce((sum, value) => sum + value * value, 0)

  const diagonal: number[] = []
  for (const [at, column] of q.entries()) {
    const below = Math.hypot(...column.slice(at))
    if (below < 1e-10)
      return refuse(
        'plane-undetermined',
        `Column ${at + 1} of the fit is made of the others; leave one of them out.`,
        at + 1,
      )
    const pivot = (column[at] as number) > 0 ? -below : below
    const reflector = column.map((x, row) => (row < at ? 0 : row === at ? x - pivot : x))
    const squared = reflector.reduce((sum, x) => sum + x * x, 0)
    for (const other of [...q.slice(at + 1), rest]) reflect(other, reflector, squared)
    diagonal.push(pivot)
  }
  const upper = (row: number, at: number) =>
    row === at ? (diagonal[at] as number) : ((q[at] as readonly number[])[row] as number)
  const solved = solveUpper(upper, rest.slice(0, count))
  const residuals = rest.slice(count).reduce((sum, value) => sum + value * value, 0)
  const degreesOfFreedom = rows - count - 1
  const variance = residuals / degreesOfFreedom
  // Rows of the inverse of R, each coefficient's share of the residual variance.
  const inverse = Array.from({ length: count }, (_, unit) =>
    solveUpper(
      upper,
      Array.from({ length: count }, (_, row) => (row === unit ? 1 : 0)),
    ),
  )
  const slopes = solved.map((value, at) => value / (lengths[at] as number))
  const ofMeans = means.map((value, at) => value / (lengths[at] as number))
  const interceptShare = inverse.reduce(
    (sum, column) => sum + column.reduce((dot, value, at) => dot + value * (ofMeans[at] as number), 0) ** 2,
    1 / rows,
  )
  return accept({
    coefficients: [slopes.reduce((sum, slope, at) => sum - slope * (means[at] as number), meanY), ...slopes],
    standardErrors: [
      Math.sqrt(variance * interceptShare),
      ...slopes.map(
        (_, at) =>
          (Math.sqrt(variance) * Math.hypot(...inverse.map((column) => column[at] as number))) /
          (lengths[at] as number),
      ),
    ],
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
    rSquared: 1 - residuals / total,
  })
}

/** Mirrors a column at the plane across the reflector, in place. */
function reflect(column: number[], reflector: readonly number[], squared: number): void {
  const twice = (2 * reflector.reduce((sum, x, row) => sum + x * (column[row] as number), 0)) / squared
  for (const [row, x] of reflector.entries()) column[row] = (column[row] as number) - twice * x
}

function solveUpper(upper: (row: number, at: number) => number, right: readonly number[]): number[] {
  const solution = [...right]
  for (let row = right.length - 1; row >= 0; row--) {
    for (let at = row + 1; at < right.length; at++)
      solution[row] = (solution[row] as number) - upper(row, at) * (solution[at] as number)
    solution[row] = (solution[row] as number) / upper(row, row)
  }
  return solution
}

const refuse = (code: string, message: string, value: number) =>
  reject({ code, message, value: String(value) })
