import { madToSigma, median, medianAbsoluteDeviation } from './spread.ts'

/**
 * Places of values that stand off from the median of the `half` neighbours on either side by more than
 * `sigmas` of their scaled median absolute deviation (Hampel 1974). Among equal neighbours any difference
 * stands off: never divided by. Values are only pointed out; nothing is changed.
 */
export function hampelOutliers(values: readonly number[], half: number, sigmas: number): readonly number[] {
  return values.flatMap((value, at) => {
    const window = values.slice(Math.max(0, at - half), at + half + 1)
    const away = Math.abs(value - median(window))
    const limit = sigmas * madToSigma * medianAbsoluteDeviation(window)
    return away > limit ? [at] : []
  })
}
