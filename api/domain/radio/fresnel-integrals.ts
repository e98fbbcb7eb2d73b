/**
 * Fresnel integrals C(x) = ∫ cos(πt²/2) and S(x) = ∫ sin(πt²/2) from 0 to x (Abramowitz and Stegun 7.3), to about 1e-14: by
 * their series up to 1.6, beyond by the continued fraction of the complementary error function of a complex argument.
 */
export function fresnelIntegrals(x: number): { readonly cosine: number; readonly sine: number } {
  const size = Math.abs(x)
  const { cosine, sine } = size <= 1.6 ? bySeries(size) : byFraction(size)
  return x < 0 ? { cosine: -cosine, sine: -sine } : { cosine, sine }
}

function bySeries(x: number) {
  const square = (Math.PI / 2) * x * x
  let cosine = 0
  let sine = 0
  let term = x
  for (let n = 0; Math.abs(term) > 1e-18 && n < 80; n++) {
    const part = term / (2 * n + 1)
    const sign = n % 4 < 2 ? 1 : -1
    if (n % 2 === 0) cosine += sign * part
    else sine += sign * part
    term *= square / (n + 1)
  }
  return { cosine, sine }
}

/** C + iS = (1 + i)/2 · (1 − erfc z), z = √π (1 − i) x/2; z² = −iπx²/2, so e^(−z²) = e^(iπx²/2). Modified Lentz. */
function byFraction(x: number) {
  const square = Math.PI * x * x
  // Fraction 1/(b₀ + a₁/(b₁ + …)) with b = 1 − iπx² + 4n and a = −2n(2n − 1), as erfc needs it.
  let b: Complex = [1, -square]
  let c: Complex = [1e300, 0]
  let d = invert(b)
  let h = d
  for (let n = 1, odd = 1; n < 200; n++, odd += 2) {
    const a = -odd * (odd + 1)
    b = [b[0] + 4, b[1]]
    d = invert([a * d[0] + b[0], a * d[1] + b[1]])
    const over = invert(c)
    c = [b[0] + a * over[0], b[1] + a * over[1]]
    const change = times(c, d)
    h = times(h, change)
    if (Math.abs(change[0] - 1) + Math.abs(change[1]) < 1e-16) break
  }
  h = times([x, -x], h)
  const wave: Complex = [Math.cos(square / 2), Math.sin(square / 2)]
  const tail = times(wave, h)
  const [cosine, sine] = times([0.5, 0.5], [1 - tail[0], -tail[1]])
  return { cosine, sine }
}

type Complex = readonly [real: number, imaginary: number]
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c]
const invert = ([a, b]: Complex): Complex => [a / (a * a + b * b), -b / (a * a + b * b)]
