import { madToSigma, median, medianAbsoluteDeviation } from './spread.ts'

/** A value that stands off from its neighbours, and their median. */
export interface HampelOutlier {
  readonly at: number
  readonly median: number
}

/**
 * Values that stand off from the median of the `half` neighbours on either side (fewer at the ends) by more than
 * `sigmas` of their scaled median absolute deviation (Hampel 1974). That deviation is 0 among equal neighbours, and
 * one flicker of the last digit would stand off: give the sensor's resolution as `leastSpread`, in the same unit.
 * Values are only pointed out; nothing is changed.
 */
export function hampelOutliers(
  values: readonly number[],
  half: number,
  sigmas: number,
  leastSpread = 0,
): readonly HampelOutlier[] {
  return values.flatMap((value, at) => {
    const window = values.slice(Math.max(0, at - half), at + half + 1)
    const middle = median(window)
    const spread = Math.max(madToSigma * medianAbsoluteDeviation(window, middle), leastSpread)
    return Math.abs(value - middle) > sigmas * spread ? [{ at, median: middle }] : []
  })
}
