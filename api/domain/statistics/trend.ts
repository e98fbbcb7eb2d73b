import { normalTail } from './normal-tail.ts'
import { median } from './spread.ts'

/** Theil's and Sen's line: robust against a few wild values. */
export interface RobustLine {
  /** Median of all pairwise slopes; NaN where no two x differ. */
  readonly slope: number
  /** Median of y − slope · x. */
  readonly intercept: number
}

/**
 * Median of the slopes between all pairs with different x (Theil 1950, Sen 1968). Work grows with the square
 * of the number of points: meant for some thousand at most.
 */
export function theilSen(x: ArrayLike<number>, y: ArrayLike<number>): RobustLine {
  const slopes: number[] = []
  for (let one = 0; one < x.length; one++)
    for (let other = one + 1; other < x.length; other++) {
      const dx = (x[other] as number) - (x[one] as number)
      if (dx !== 0) slopes.push(((y[other] as number) - (y[one] as number)) / dx)
    }
  const slope = median(slopes)
  const rests = Array.from({ length: x.length }, (_, at) => (y[at] as number) - slope * (x[at] as number))
  return { slope, intercept: median(rests) }
}

export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly score: number
  /** Variance of the score where there is no trend, corrected for ties. */
  readonly variance: number
  /** Continuity-corrected standard score; 0 where the score is. */
  readonly z: number
  /** Two-sided, by the normal approximation; sound from about ten values. */
  readonly pTwoSided: number
}

/**
 * Mann's and Kendall's test for a trend in equally trusted, independent values in order of time (EPA QA/G-9S).
 * Readings that follow each other closely are not independent: thin them first, or p is far too small.
 */
export function mannKendall(values: readonly number[]): MannKendall {
  const count = values.length
  let score = 0
  for (let one = 0; one < count; one++)
    for (let other = one + 1; other < count; other++)
      score += Math.sign((values[other] as number) - (values[one] as number))
  const ties = new Map<number, number>()
  for (const value of values) ties.set(value, (ties.get(value) ?? 0) + 1)
  const term = (n: number) => n * (n - 1) * (2 * n + 5)
  const variance = (term(count) - [...ties.values()].reduce((sum, tied) => sum + term(tied), 0)) / 18
  const z = score === 0 || variance === 0 ? 0 : (score - Math.sign(score)) / Math.sqrt(variance)
  return { score, variance, z, pTwoSided: 2 * normalTail(Math.abs(z)) }
}
