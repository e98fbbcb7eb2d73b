import { mean } from '../statistics/spread.ts'

/** Estimates with their covariances; the square roots of the diagonal are standard uncertainties. */
export interface Estimates {
  readonly values: readonly number[]
  readonly covariance: readonly (readonly number[])[]
}

/** Standard uncertainty of one of some estimates. */
export const uncertaintyOf = ({ covariance }: Estimates, at: number): number =>
  Math.sqrt(covariance[at]?.[at] ?? Number.NaN)

/** Correlation of two of some estimates, −1 to 1. */
export const correlationOf = (estimates: Estimates, one: number, other: number): number =>
  (estimates.covariance[one]?.[other] ?? Number.NaN) /
  (uncertaintyOf(estimates, one) * uncertaintyOf(estimates, other))

/**
 * Means of quantities observed together, and the covariances of those means (JCGM 100, 5.2.3): each list holds the
 * same observations of one quantity. At least two observations.
 */
export function observedTogether(lists: readonly (readonly number[])[]): Estimates {
  const values = lists.map(mean)
  const away = lists.map((list, at) => list.map((value) => value - (values[at] as number)))
  const count = lists[0]?.length ?? 0
  return {
    values,
    covariance: away.map((one) => away.map((other) => dot(one, other) / (count * (count - 1)))),
  }
}

/**
 * Estimates carried through a model of several outputs, first order and with their covariances (JCGM 100, F.1.2.3);
 * derivatives by central differences of a hundredth of each standard uncertainty. First order is enough where the
 * model hardly bends over the uncertainties.
 */
export function propagate(
  inputs: Estimates,
  model: (values: readonly number[]) => readonly number[],
): Estimates {
  const columns = inputs.values.map((value, at) => {
    const step = uncertaintyOf(inputs, at) / 100 || Math.max(Math.abs(value), 1) * 1e-6
    const moved = (by: number) => model(inputs.values.map((one, place) => (place === at ? one + by : one)))
    const [up, down] = [moved(step), moved(-step)]
    return up.map((high, output) => (high - (down[output] as number)) / (2 * step))
  })
  const values = model(inputs.values)
  const gradient = values.map((_, output) => columns.map((column) => column[output] as number))
  return {
    values,
    covariance: gradient.map((one) =>
      gradient.map((other) =>
        dot(
          one,
          inputs.covariance.map((row) => dot(row, other)),
        ),
      ),
    ),
  }
}

const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, at) => sum + value * (other[at] as number), 0)
