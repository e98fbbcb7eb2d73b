import { accept, type Outcome, reject } from '../outcome.ts'

/** A curve fitted by least squares, with standard errors as if it were straight near its best place. */
export interface CurveFit {
  readonly parameters: readonly number[]
  readonly standardErrors: readonly number[]
  /** Of the parameters; its diagonal is the squares of the standard errors. */
  readonly covariance: readonly (readonly number[])[]
  /** Observed less fitted, in the order given. */
  readonly residuals: readonly number[]
  readonly residualSumOfSquares: number
  readonly residualStandardDeviation: number
  readonly degreesOfFreedom: number
}

/**
 * Least squares of y = f(x; parameters) by Levenberg and Marquardt's damping of Gauss–Newton, columns brought to one
 * length (Moré 1978), derivatives by central differences. Refused where values do not outnumber parameters, where
 * parameters cannot be told apart and where no place of rest is found: an answer is never that of the last round.
 */
export function fitCurve(
  curve: (x: number, parameters: readonly number[]) => number,
  x: readonly number[],
  y: readonly number[],
  start: readonly number[],
): Outcome<CurveFit> {
  const degreesOfFreedom = y.length - start.length
  if (x.length !== y.length || degreesOfFreedom < 1 || ![...x, ...y, ...start].every(Number.isFinite))
    return refuse(`A fit of ${start.length} parameters needs more than ${start.length} pairs of numbers.`)
  const residualsAt = (at: readonly number[]) => y.map((value, row) => value - curve(x[row] as number, at))
  let parameters = [...start]
  let residuals = residualsAt(parameters)
  let sum = squares(residuals)
  let damping = 1e-3
  for (let round = 0; round < 5000; round++) {
    const { columns, lengths } = scaledSlopes(curve, x, parameters, Math.hypot(...y))
    if (!lengths.every((length) => Number.isFinite(length) && length > 0))
      return refuse(
        'One parameter of the curve has no effect on it where the fit came to; start it elsewhere.',
      )
    const normal = columns.map((one) => columns.map((other) => dot(one, other)))
    const gradient = columns.map((column) => dot(column, residuals))
    const size = Math.sqrt(sum)
    const step = solveSymmetric(damped(normal, damping), gradient)
    const moved =
      step && parameters.map((value, at) => value + (step[at] as number) / (lengths[at] as number))
    const next = moved && residualsAt(moved)
    const nextSum = next ? squares(next) : Number.NaN
    // A step in the measure of the residuals; a damped one is small anywhere and tells nothing.
    const small =
      step !== null && damping < 1e-3 && Math.hypot(...step) <= 1e-9 * size + 1e-14 * Math.hypot(...y)
    // Residuals of rounding alone have no direction of their own.
    const exact = size <= 1e-11 * Math.hypot(...y)
    const flat = exact || Math.max(...gradient.map(Math.abs)) <= 1e-8 * size + 1e-14 * Math.hypot(...y)
    if ((small || damping > 1e14) && flat)
      return finish(normal, lengths, parameters, residuals, sum, degreesOfFreedom)
    if (damping > 1e14) break
    // So short a step changes the sum by less than its rounding: a rise of that size is none.
    const rounding = 1e-13 * sum + 1e-14 * size * Math.hypot(...y)
    const unseen = step !== null && squares(step) <= rounding && nextSum <= sum + rounding
    if (moved && next && (nextSum < sum || unseen)) {
      parameters = moved
      residuals = next
      sum = nextSum
      damping = Math.max(damping / 10, 1e-12)
    } else damping *= flat ? 1000 : 4
  }
  return refuse('The fit did not converge: the points do not determine this curve.')
}

function finish(
  normal: readonly (readonly number[])[],
  lengths: readonly number[],
  parameters: readonly number[],
  residuals: readonly number[],
  sum: number,
  degreesOfFreedom: number,
): Outcome<CurveFit> {
  const variance = sum / degreesOfFreedom
  const inverse = parameters.map((_, unit) =>
    solveSymmetric(
      normal,
      parameters.map((_, row) => (row === unit ? 1 : 0)),
    ),
  )
  if (inverse.some((column) => column === null))
    return refuse('The points do not tell the parameters of the curve apart; add points where it bends.')
  const covariance = inverse.map((column, a) =>
    (column as number[]).map(
      (value, b) => (value * variance) / (lengths[a] as number) / (lengths[b] as number),
    ),
  )
  return accept({
    parameters,
    standardErrors: covariance.map((row, at) => Math.sqrt(row[at] as number)),
    covariance,
    residuals,
    residualSumOfSquares: sum,
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
  })
}

/** Derivatives over steps that change the curve by a like share, whatever the parameter's size: one may well be 0. */
function scaledSlopes(
  curve: (x: number, parameters: readonly number[]) => number,
  x: readonly number[],
  parameters: readonly number[],
  extent: number,
) {
  const slopes = (at: number, step: number) => {
    const moved = (by: number) => parameters.map((one, place) => (place === at ? one + by : one))
    const [up, down] = [moved(step), moved(-step)]
    return x.map((place) => (curve(place, up) - curve(place, down)) / (2 * step))
  }
  const columns = parameters.map((value, at) => {
    const most = 6e-6 * (Math.abs(value) || 1)
    const first = slopes(at, most)
    const alike = (6e-6 * extent) / Math.hypot(...first)
    const step = Math.max(Math.min(alike, Math.max(most, 6e-6)), 1e-10 * Math.abs(value))
    return slopes(at, step)
  })
  const lengths = columns.map((column) => Math.hypot(...column))
  return {
    lengths,
    columns: columns.map((column, at) => column.map((value) => value / (lengths[at] as number))),
  }
}

const damped = (matrix: readonly (readonly number[])[], damping: number) =>
  matrix.map((row, at) => row.map((value, place) => (place === at ? value * (1 + damping) : value)))

/** Solves a symmetric positive system by Cholesky's factors; null where it is not positive. */
function solveSymmetric(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const lower = matrix.map((row) => row.map(() => 0))
  const at = (row: number, column: number) => lower[row]?.[column] as number
  for (const [row, values] of matrix.entries())
    for (let column = 0; column <= row; column++) {
      let rest = values[column] as number
      for (let k = 0; k < column; k++) rest -= at(row, k) * at(column, k)
      if (row === column && !(rest > 1e-14)) return null
      const factors = lower[row] as number[]
      factors[column] = row === column ? Math.sqrt(rest) : rest / at(column, column)
    }
  const solution = [...right]
  for (let row = 0; row < right.length; row++) {
    for (let k = 0; k < row; k++)
      solution[row] = (solution[row] as number) - at(row, k) * (solution[k] as number)
    solution[row] = (solution[row] as number) / at(row, row)
  }
  for (let row = right.length - 1; row >= 0; row--) {
    for (let k = row + 1; k < right.length; k++)
      solution[row] = (solution[row] as number) - at(k, row) * (solution[k] as number)
    solution[row] = (solution[row] as number) / at(row, row)
  }
  return solution
}

const dot = (one: readonly number[], other: readonly number[]) =>
  one.reduce((sum, value, at) => sum + value * (other[at] as number), 0)
const squares = (values: readonly number[]) => dot(values, values)
const refuse = (message: string) => reject({ code: 'curve-undetermined', message })
