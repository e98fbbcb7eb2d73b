import { accept, type Outcome, reject } from '../outcome.ts'
import { studentQuantile } from './student-t.ts'

/** A fitted straight line y = intercept + slope · x, with standard errors. */
export interface LineFit {
  readonly intercept: number
  readonly slope: number
  readonly interceptStandardError: number
  readonly slopeStandardError: number
  /** Of the residuals, with n − 2 degrees of freedom; 0 for two points. */
  readonly residualStandardDeviation: number
  /** Share of the variance explained; NaN where y does not vary. */
  readonly rSquared: number
  readonly count: number
  /** Correlation of the two estimates; 0 where the x lie about 0. */
  readonly correlation: number
}

/**
 * Ordinary least squares of a line. Refused with fewer than two distinct x or a value that is not finite.
 * Sums are taken about the means, so that instants in epoch milliseconds lose nothing
 * (checked against the certified Norris data, NIST StRD).
 */
export function fitLine(x: ArrayLike<number>, y: ArrayLike<number>): Outcome<LineFit> {
  const count = Math.min(x.length, y.length)
  for (let at = 0; at < count; at++)
    if (!Number.isFinite(x[at]) || !Number.isFinite(y[at]))
      return reject({
        code: 'number-expected',
        message: `Pair ${at + 1} of the fit is ${x[at]}, ${y[at]}; leave out what is not a number.`,
        value: `${x[at]}, ${y[at]}`,
      })
  const meanX = meanOf(x, count)
  const meanY = meanOf(y, count)
  let sxx = 0
  let sxy = 0
  let syy = 0
  for (let at = 0; at < count; at++) {
    const dx = (x[at] as number) - meanX
    const dy = (y[at] as number) - meanY
    sxx += dx * dx
    sxy += dx * dy
    syy += dy * dy
  }
  if (count < 2 || sxx === 0)
    return reject({
      code: 'line-undetermined',
      message: 'A line needs readings at two different instants or places at least.',
      value: String(count),
    })
  const slope = sxy / sxx
  const intercept = meanY - slope * meanX
  let residuals = 0
  for (let at = 0; at < count; at++)
    residuals += ((y[at] as number) - meanY - slope * ((x[at] as number) - meanX)) ** 2
  const variance = count > 2 ? residuals / (count - 2) : 0
  return accept({
    intercept,
    slope,
    interceptStandardError: Math.sqrt(variance * (1 / count + (meanX * meanX) / sxx)),
    slopeStandardError: Math.sqrt(variance / sxx),
    residualStandardDeviation: Math.sqrt(variance),
    rSquared: 1 - residuals / syy,
    count,
    correlation: -meanX / Math.sqrt(sxx / count + meanX * meanX),
  })
}

/** Value of the line at x and its standard error, that of the line itself and not of one more reading. */
export function lineAt(fit: LineFit, x: number): { readonly value: number; readonly standardError: number } {
  const along = x * fit.slopeStandardError
  const both = 2 * fit.correlation * fit.interceptStandardError * along
  return {
    value: fit.intercept + fit.slope * x,
    standardError: Math.sqrt(Math.max(0, fit.interceptStandardError ** 2 + along ** 2 + both)),
  }
}

/**
 * Intervals that hold slope and intercept at a level such as 0.95, each by itself, by Student's t with n − 2 degrees
 * of freedom. For independent residuals: readings close in time have wider ones. Null for two points, which leave none.
 */
export function lineIntervals(
  fit: LineFit,
  confidence: number,
): { readonly slope: readonly [number, number]; readonly intercept: readonly [number, number] } | null {
  if (fit.count < 3) return null
  const factor = studentQuantile((1 + confidence) / 2, fit.count - 2)
  const about = (middle: number, error: number) => [middle - factor * error, middle + factor * error] as const
  return {
    slope: about(fit.slope, fit.slopeStandardError),
    intercept: about(fit.intercept, fit.interceptStandardError),
  }
}

/** Mean by a second pass over what the first left: exact where a plain sum of large numbers is not. */
function meanOf(values: ArrayLike<number>, count: number): number {
  let first = 0
  for (let at = 0; at < count; at++) first += values[at] as number
  first /= count
  let rest = 0
  for (let at = 0; at < count; at++) rest += (values[at] as number) - first
  return first + rest / count
}
