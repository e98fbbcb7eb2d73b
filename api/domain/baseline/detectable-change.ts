import { normalQuantile } from '../statistics/normal-quantile.ts'

/** Standard uncertainty of one reading less a mean of `count` zero readings, all of one standard deviation. */
export const changeFromZeroUncertainty = (standardDeviation: number, count: number): number =>
  standardDeviation * Math.sqrt(1 + 1 / count)

export interface DetectableChange {
  /** A change beyond this is not put down to noise (two-sided, at the confidence asked). */
  readonly critical: number
  /** A true change of this size goes beyond `critical` with the power asked: the smallest that can be relied on. */
  readonly detectable: number
}

/** Of a change whose standard uncertainty is known, by the Gaussian test. Same unit. */
export function detectableChange(
  standardUncertainty: number,
  { confidence = 0.95, power = 0.8 }: { readonly confidence?: number; readonly power?: number } = {},
): DetectableChange {
  const critical = normalQuantile((1 + confidence) / 2) * standardUncertainty
  return { critical, detectable: critical + normalQuantile(power) * standardUncertainty }
}
