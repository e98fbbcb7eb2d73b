/**
 * Standard error of a fitted slope whose residuals hang together in time (Newey and West 1987, Bartlett weights).
 * `x` less its mean and the residuals are in order of time; `lags` is how many neighbours they are looked for over,
 * and `fitted` how many numbers the fit took from the readings. Takes the readings as evenly spaced. Never below 0; 0 for
 * an exact fit; null where no reading is left over or x does not vary.
 */
export function autocorrelatedSlopeError(
  x: ArrayLike<number>,
  residuals: ArrayLike<number>,
  lags: number,
  fitted: number,
): number | null {
  const count = Math.min(x.length, residuals.length)
  let squares = 0
  for (let at = 0; at < count; at++) squares += (x[at] as number) ** 2
  if (count <= fitted || squares === 0) return null
  const score = (at: number) => (x[at] as number) * (residuals[at] as number)
  let sum = 0
  for (let lag = 0; lag <= Math.min(lags, count - 1); lag++) {
    let together = 0
    for (let at = lag; at < count; at++) together += score(at) * score(at - lag)
    sum += lag === 0 ? together : 2 * (1 - lag / (lags + 1)) * together
  }
  return Math.sqrt((Math.max(0, sum) * count) / (count - fitted)) / squares
}

/**
 * Neighbours to look over: those within `hoursTogether`, so that daily swings count, or what overlaps; no fewer than the
 * rule of thumb 4 · (n / 100)^(2/9) (Newey and West 1994), no more than a quarter of the readings.
 */
export function lagsToLookOver(count: number, hoursBetween: number, hoursTogether = 24): number {
  const rule = Math.floor(4 * (count / 100) ** (2 / 9))
  const together = hoursBetween > 0 ? Math.ceil(hoursTogether / hoursBetween) : 0
  return Math.min(Math.max(rule, together), Math.floor(count / 4))
}
