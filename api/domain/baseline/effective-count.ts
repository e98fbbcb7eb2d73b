/**
 * How many independent readings a run of correlated ones is worth: n(1 − r)/(1 + r) for a first-order autoregressive
 * series of lag-one correlation r (asymptotic). Never above n, nor below 1; a negative r is not taken as a gain.
 */
export const effectiveCount = (count: number, lagOneCorrelation: number): number => {
  const r = Number.isFinite(lagOneCorrelation) ? Math.min(1, Math.max(0, lagOneCorrelation)) : 0
  return Math.max(1, (count * (1 - r)) / (1 + r))
}
