import { normalQuantile } from '../statistics/normal-quantile.ts'
import { mean } from '../statistics/spread.ts'

/**
 * Two single readings under the same conditions differ by less than this 95 times in 100 (ISO 5725-6: 1.96 √2,
 * written there as 2.8); with the standard deviation between observers it is the reproducibility limit.
 */
export const repeatabilityLimit = (standardDeviation: number): number =>
  normalQuantile(0.975) * Math.SQRT2 * standardDeviation

/** Spread within observers, between them, and of any reading by any of them, in the unit of the readings. */
export interface ObserverSpread {
  readonly repeatability: number
  readonly between: number
  readonly reproducibility: number
  /** Mean square between by mean square within. */
  readonly varianceRatio: number
}

/**
 * One-way model of ISO 5725-2: every observer reads the same thing equally often. Where observers differ less than
 * their own scatter explains, the spread between them is 0. Null unless there are two of each, evenly.
 */
export function observerSpread(readings: readonly (readonly number[])[]): ObserverSpread | null {
  const repeats = readings[0]?.length ?? 0
  if (readings.length < 2 || repeats < 2 || readings.some((one) => one.length !== repeats)) return null
  const means = readings.map(mean)
  const middle = mean(means)
  const within =
    readings.flatMap((one, at) => one.map((value) => (value - (means[at] as number)) ** 2)).reduce(add) /
    (readings.length * (repeats - 1))
  const between = (repeats * means.map((value) => (value - middle) ** 2).reduce(add)) / (readings.length - 1)
  const ofObservers = Math.max(0, (between - within) / repeats)
  return {
    repeatability: Math.sqrt(within),
    between: Math.sqrt(ofObservers),
    reproducibility: Math.sqrt(within + ofObservers),
    varianceRatio: between / within,
  }
}

const add = (one: number, other: number) => one + other
