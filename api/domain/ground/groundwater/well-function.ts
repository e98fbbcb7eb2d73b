const eulerGamma = 0.5772156649015329

/**
 * Well function W(u) = ∫ from u of e^(−x)/x dx (Theis 1935), for u above 0: its series to 1, Lentz's continued fraction beyond;
 * relative error below 1e-12. Widely reprinted tables carry misprints. Infinite at 0; NaN below, where nothing is defined.
 */
export function wellFunction(u: number): number {
  if (u === 0) return Number.POSITIVE_INFINITY
  if (!(u > 0)) return Number.NaN
  if (u <= 1) {
    let term = 1
    let sum = -eulerGamma - Math.log(u)
    for (let n = 1; n < 40; n++) {
      term *= -u / n
      sum -= term / n
    }
    return sum
  }
  let b = u + 1
  let c = 1e300
  let d = 1 / b
  let fraction = d
  for (let n = 1; n < 1000; n++) {
    b += 2
    d = 1 / (b - n * n * d)
    c = b - (n * n) / c
    fraction *= c * d
    if (Math.abs(c * d - 1) < 1e-16) break
  }
  return fraction * Math.exp(-u)
}
