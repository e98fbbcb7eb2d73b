import { kendallExactTwoSided } from './kendall-exact.ts'
import { normalQuantile } from './normal-quantile.ts'
import { normalTail } from './normal-tail.ts'
import { median } from './spread.ts'

/** Theil's and Sen's line: robust against a few wild values. */
export interface RobustLine {
  /** Median of all pairwise slopes; NaN where no two x differ. */
  readonly slope: number
  /** Interval of the slope at `confidence` (Sen 1968, by Kendall's variance); null where too few pairs bound it. */
  readonly slopeInterval: readonly [number, number] | null
  /** Median of y − slope · x. */
  readonly intercept: number
  /** Median of y less slope · median of x (Conover 1980). */
  readonly interceptOfMedians: number
}

/**
 * Median of the slopes between all pairs with different x (Theil 1950, Sen 1968). Work grows with the square
 * of the number of points: meant for some thousand at most. The interval takes readings as independent; where they hang
 * together `varianceFactor`, how many of them stand for one (Hamed and Rao 1998), widens it.
 */
export function theilSen(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  confidence = 0.95,
  varianceFactor = 1,
): RobustLine {
  const slopes: number[] = []
  for (let one = 0; one < x.length; one++)
    for (let other = one + 1; other < x.length; other++) {
      const dx = (x[other] as number) - (x[one] as number)
      if (dx !== 0) slopes.push(((y[other] as number) - (y[one] as number)) / dx)
    }
  slopes.sort((one, other) => one - other)
  const slope = median(slopes)
  const values = Array.from(y)
  const rests = values.map((value, at) => value - slope * (x[at] as number))
  const half = normalQuantile((1 + confidence) / 2) * Math.sqrt(scoreVariance(values) * varianceFactor)
  const low = Math.round((slopes.length - half) / 2) - 1
  const high = Math.round((slopes.length + half) / 2)
  const bounds = [slopes[low], slopes[high]] as const
  const [lowest, highest] = bounds
  return {
    slope,
    slopeInterval: lowest === undefined || highest === undefined ? null : [lowest, highest],
    intercept: median(rests),
    interceptOfMedians: median(values) - slope * median(Array.from(x)),
  }
}

export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly score: number
  /** Score as a share of all pairs that are not tied; NaN of equal values. */
  readonly tau: number
  /** Variance of the score where there is no trend, corrected for ties. */
  readonly variance: number
  /** Continuity-corrected standard score; 0 where the score is. */
  readonly z: number
  /** Two-sided, by the normal approximation. */
  readonly pNormal: number
  /** Two-sided, counted out; null with ties or more than ten values. */
  readonly pExact: number | null
  /** The exact one where there is one: the normal one is twice too large in short series. */
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
  const variance = scoreVariance(values)
  const z = score === 0 || variance === 0 ? 0 : (score - Math.sign(score)) / Math.sqrt(variance)
  const pairs = (count * (count - 1)) / 2
  const tiedPairs = tieCounts(values).reduce((sum, tied) => sum + (tied * (tied - 1)) / 2, 0)
  const pNormal = 2 * normalTail(Math.abs(z))
  const pExact = count <= 10 && tiedPairs === 0 ? kendallExactTwoSided(score, count) : null
  return {
    score,
    tau: score / Math.sqrt(pairs * (pairs - tiedPairs)),
    variance,
    z,
    pNormal,
    pExact,
    pTwoSided: pExact ?? pNormal,
  }
}

function scoreVariance(values: readonly number[]): number {
  const term = (n: number) => n * (n - 1) * (2 * n + 5)
  return (term(values.length) - tieCounts(values).reduce((sum, tied) => sum + term(tied), 0)) / 18
}

function tieCounts(values: readonly number[]): readonly number[] {
  const ties = new Map<number, number>()
  for (const value of values) ties.set(value, (ties.get(value) ?? 0) + 1)
  return [...ties.values()]
}
