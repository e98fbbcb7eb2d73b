/** Regularised incomplete beta function I_x(a, b), by its continued fraction (Abramowitz and Stegun 26.5.8). */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0 || x >= 1) return x <= 0 ? 0 : 1
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a)
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x))
  const tiny = 1e-300
  const away = (value: number) => (Math.abs(value) < tiny ? tiny : value)
  let c = 1
  let d = 1 / away(1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m <= 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / away(1 + even * d)
    c = away(1 + even / c)
    fraction *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / away(1 + odd * d)
    c = away(1 + odd / c)
    fraction *= d * c
    if (Math.abs(d * c - 1) < 1e-16) break
  }
  return (front * fraction) / a
}

/** ln Γ(x) for x above 0: Stirling's series (Abramowitz and Stegun 6.1.41) from 12 on, recurrence below. */
export function logGamma(x: number): number {
  let shift = 0
  let z = x
  while (z < 12) {
    shift += Math.log(z)
    z++
  }
  const inverse = 1 / (z * z)
  const series =
    (1 / 12 -
      inverse *
        (1 / 360 -
          inverse * (1 / 1260 - inverse * (1 / 1680 - inverse * (1 / 1188 - inverse * (691 / 360360)))))) /
    z
  return (z - 0.5) * Math.log(z) - z + Math.log(2 * Math.PI) / 2 + series - shift
}
