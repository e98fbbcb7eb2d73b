/**
 * Upper tail of the standard normal distribution, 1 − Φ(z), for any z. Series below 3, continued fraction
 * above (Abramowitz and Stegun 26.2.10 and 26.2.14); relative error below 1e-12 to z = 30.
 */
export function normalTail(z: number): number {
  if (z < 0) return 1 - normalTail(-z)
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
  if (z < 3) {
    let term = z
    let sum = z
    for (let n = 1; Math.abs(term) > 1e-17 * sum; n++) {
      term *= (z * z) / (2 * n + 1)
      sum += term
    }
    return 0.5 - density * sum
  }
  let fraction = z
  for (let n = 200; n >= 1; n--) fraction = z + n / fraction
  return density / fraction
}
