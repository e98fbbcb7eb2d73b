import { incompleteBeta, logGamma } from './incomplete-beta.ts'
import { normalQuantile } from './normal-quantile.ts'

/**
 * Quantile of Student's t with any positive number of degrees of freedom (Welch–Satterthwaite gives fractions) for
 * a probability between 0 and 1, to about 1 part in 10¹²; 0 and 1 give minus and plus infinity. By Newton's method,
 * held between bounds, on `studentTail`.
 */
export function studentQuantile(probability: number, degreesOfFreedom: number): number {
  if (probability <= 0 || probability >= 1)
    return probability <= 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY
  const tail = Math.min(probability, 1 - probability)
  if (tail === 0.5) return 0
  let low = 0
  let high = Math.max(1, -normalQuantile(tail))
  while (studentTail(high, degreesOfFreedom) > tail) high *= 2
  let t = Math.min(high, -normalQuantile(tail))
  for (let round = 0; round < 200; round++) {
    const over = studentTail(t, degreesOfFreedom) - tail
    if (over > 0) low = t
    else high = t
    const next = t + over / density(t, degreesOfFreedom)
    const moved = next > low && next < high ? next : (low + high) / 2
    if (Math.abs(moved - t) <= 1e-15 * Math.abs(t)) break
    t = moved
  }
  return probability < 0.5 ? -t : t
}

/** Probability that Student's t exceeds `t` (Abramowitz and Stegun 26.7.1 and 26.5.27). */
export function studentTail(t: number, degreesOfFreedom: number): number {
  const share = degreesOfFreedom / (degreesOfFreedom + t * t)
  const tail = incompleteBeta(share, degreesOfFreedom / 2, 0.5) / 2
  return t < 0 ? 1 - tail : tail
}

function density(t: number, degreesOfFreedom: number): number {
  const half = degreesOfFreedom / 2
  const log =
    logGamma(half + 0.5) -
    logGamma(half) -
    Math.log(degreesOfFreedom * Math.PI) / 2 -
    (half + 0.5) * Math.log1p((t * t) / degreesOfFreedom)
  return Math.exp(log)
}
