import { incompleteBeta } from '../statistics/incomplete-beta.ts'

/**
 * Exact interval of the share of packets delivered after Clopper and Pearson (1934), Biometrika 26:404–413: the shares for
 * which the count seen is not in the outer tails of the binomial distribution. Never narrower than stated, often wider.
 * `confidence` between 0 and 1. No packets: 0 to 1.
 */
export function clopperPearsonInterval(
  received: number,
  sent: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  if (sent <= 0) return { low: 0, high: 1 }
  const tail = (1 - confidence) / 2
  return {
    low: received <= 0 ? 0 : betaQuantile(tail, received, sent - received + 1),
    high: received >= sent ? 1 : betaQuantile(1 - tail, received + 1, sent - received),
  }
}

/** Quantile of the beta distribution by halving: as close as doubles are between 0 and 1. */
function betaQuantile(probability: number, a: number, b: number): number {
  let low = 0
  let high = 1
  for (let round = 0; round < 100 && high - low > 1e-16; round++) {
    const middle = (low + high) / 2
    if (incompleteBeta(middle, a, b) < probability) low = middle
    else high = middle
  }
  return (low + high) / 2
}
