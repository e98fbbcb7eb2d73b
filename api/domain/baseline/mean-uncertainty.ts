import { studentQuantile } from '../statistics/student-t.ts'

/** How well a mean of repeated readings is known, in their unit (JCGM 100, type A). */
export interface MeanUncertainty {
  readonly standardError: number
  /** Student's t for the confidence asked. */
  readonly factor: number
  /** The mean lies within this of the true one at that confidence. */
  readonly halfWidth: number
}

/**
 * Of a mean of `count` independent readings (the effective number where they are correlated) with sample standard
 * deviation `standardDeviation`. Two readings find a blunder, but their own spread tells next to nothing: ± 9 of it.
 * Null for fewer than two, which have no spread.
 */
export function meanUncertainty(
  standardDeviation: number,
  count: number,
  confidence = 0.95,
): MeanUncertainty | null {
  if (!(count >= 2) || !Number.isFinite(standardDeviation)) return null
  const standardError = standardDeviation / Math.sqrt(count)
  const factor = studentQuantile((1 + confidence) / 2, count - 1)
  return { standardError, factor, halfWidth: factor * standardError }
}
