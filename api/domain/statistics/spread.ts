/** Mean, by two passes; NaN of nothing. */
export function mean(values: readonly number[]): number {
  const first = values.reduce((sum, value) => sum + value, 0) / values.length
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length
}

/** Sample standard deviation, n − 1 in the divisor; NaN of fewer than two. */
export function standardDeviation(values: readonly number[]): number {
  const middle = mean(values)
  const squares = values.reduce((sum, value) => sum + (value - middle) ** 2, 0)
  return values.length < 2 ? Number.NaN : Math.sqrt(squares / (values.length - 1))
}

/** Correlation of each value with the one before it, about the common mean (NIST StRD's definition). */
export function lagOneAutocorrelation(values: readonly number[]): number {
  const middle = mean(values)
  let products = 0
  let squares = 0
  values.forEach((value, at) => {
    squares += (value - middle) ** 2
    if (at > 0) products += (value - middle) * ((values[at - 1] as number) - middle)
  })
  return products / squares
}

/** Median; the mean of the two middle ones of an even number; NaN of nothing. */
export const median = (values: ArrayLike<number>): number => medianOfSorted(new Float64Array(values).sort())

/** The same of values in rising order. */
export function medianOfSorted(sorted: ArrayLike<number>): number {
  const middle = sorted.length >> 1
  if (sorted.length % 2 === 1) return sorted[middle] as number
  return sorted.length === 0 ? Number.NaN : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2
}

/** Median of the distances from the median; times `madToSigma` it estimates a Gaussian's standard deviation. */
export const medianAbsoluteDeviation = (values: readonly number[], middle = median(values)): number =>
  median(values.map((value) => Math.abs(value - middle)))

/** 1 / Φ⁻¹(3/4) */
export const madToSigma = 1.482602218505602

/**
 * Sample quantile by Hyndman and Fan's (1996) type 6 (p(n + 1), the one of hydrology), 7 ((n − 1)p + 1, that of
 * spreadsheets) or 8 ((n + 1/3)p + 1/3, nearly unbiased for any distribution). Held to the extremes outside them.
 */
export function quantile(values: readonly number[], share: number, type: 6 | 7 | 8): number {
  const sorted = [...values].sort((one, other) => one - other)
  const count = sorted.length
  const places = { 6: share * (count + 1), 7: share * (count - 1) + 1, 8: share * (count + 1 / 3) + 1 / 3 }
  const place = places[type]
  const below = Math.floor(place)
  const at = (place: number) => sorted[Math.min(count, Math.max(1, place)) - 1] ?? Number.NaN
  return at(below) + (place - below) * (at(below + 1) - at(below))
}
