/**
 * Standard deviation that noise alone gives to the rate between two readings `intervalDays` apart, in units a day;
 * the noise has standard deviation `sigma` and is independent from reading to reading.
 */
export const twoPointRateNoise = (sigma: number, intervalDays: number): number =>
  (Math.SQRT2 * sigma) / intervalDays

/** The same for a line through `count` readings at even intervals: sigma / √Σ(t − mean t)². */
export const regressionRateNoise = (sigma: number, intervalDays: number, count: number): number =>
  sigma / (intervalDays * Math.sqrt((count * (count * count - 1)) / 12))
