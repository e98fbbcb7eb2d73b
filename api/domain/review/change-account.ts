import { lagOneAutocorrelation } from '../statistics/spread.ts'

/** Values told as a level and so many times a shape in time, by least squares. */
export interface ChangeAccount {
  readonly shape: readonly number[]
  readonly slope: number
  readonly squares: number
  readonly rest: readonly number[]
  /** Standard error of the slope for a scatter of one. */
  readonly unitError: number
}

/** A change that begins at a step and grows by one a step for so many steps; 0 before, as far as it came after. */
export const shapeOfChange = (
  at: readonly number[],
  { beganAtStep, lastedSteps }: { readonly beganAtStep: number; readonly lastedSteps: number },
): readonly number[] =>
  at.map((step) => (step < beganAtStep ? 0 : Math.min(step - beganAtStep + 1, lastedSteps)))

/** The account of values by a shape that has a value for each of them; a shape that does not vary accounts for nothing. */
export function accountOf(shape: readonly number[], values: readonly number[]): ChangeAccount {
  const count = values.length
  const meanShape = shape.reduce((sum, one) => sum + one, 0) / count
  const meanValue = values.reduce((sum, one) => sum + one, 0) / count
  let square = 0
  let product = 0
  shape.forEach((one, i) => {
    square += (one - meanShape) ** 2
    product += (one - meanShape) * ((values[i] as number) - meanValue)
  })
  const slope = square === 0 ? 0 : product / square
  const rest = values.map((value, i) => value - meanValue - slope * ((shape[i] as number) - meanShape))
  const squares = rest.reduce((sum, one) => sum + one * one, 0)
  return { shape, slope, squares, rest, unitError: square === 0 ? 0 : 1 / Math.sqrt(square) }
}

/**
 * Values that count, of ones that hang together: n (1 − r) / (1 + r), never more than there are. What is left over hangs
 * together less than the readings do, since the fit took its share: r + (2 + 4 r) / n (Kendall 1954, for a trend taken
 * off; from memory).
 */
export function independentCount(rest: readonly number[]): number {
  const found = lagOneAutocorrelation(rest)
  const r = found + (2 + 4 * found) / rest.length
  const held = Number.isFinite(r) ? Math.min(0.95, Math.max(0, r)) : 0
  return Math.max(3, (rest.length * (1 - held)) / (1 + held))
}

/** Steps at which a series has a value, and the values there. */
export function valuesThere(series: Float64Array): {
  readonly at: readonly number[]
  readonly values: readonly number[]
} {
  const at: number[] = []
  const values: number[] = []
  for (let step = 0; step < series.length; step++) {
    const value = series[step] as number
    if (!Number.isFinite(value)) continue
    at.push(step)
    values.push(value)
  }
  return { at, values }
}
