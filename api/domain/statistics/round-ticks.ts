/**
 * Multiples of 1, 2 or 5 times a power of ten from `low` to `high` inclusive, as many as possible but at most
 * `atMost`. Empty where the span is empty or not finite. Each is the nearest double to its decimal text.
 */
export function roundTicks(low: number, high: number, atMost: number): readonly number[] {
  if (!(high > low) || !Number.isFinite(high - low) || atMost < 1) return []
  // The first guess is one step too fine at most; rounding at the ends may ask for a coarser one.
  for (let exponent = Math.floor(Math.log10((high - low) / (atMost + 1))); exponent <= 308; exponent++)
    for (const mantissa of [1, 2, 5]) {
      const ticks = multiplesWithin(low, high, mantissa, exponent, atMost)
      if (ticks) return ticks
    }
  return []
}

/** Null where there are more than `atMost`. */
function multiplesWithin(
  low: number,
  high: number,
  mantissa: number,
  exponent: number,
  atMost: number,
): readonly number[] | null {
  const step = scaled(mantissa, exponent)
  if (!(step > 0) || !Number.isFinite(step)) return null
  const slack = 1e-9
  const first = Math.ceil(low / step - slack)
  const last = Math.floor(high / step + slack)
  if (last - first + 1 > atMost) return null
  const ticks: number[] = []
  for (let n = first; n <= last; n++) ticks.push(n === 0 ? 0 : scaled(n * mantissa, exponent))
  return ticks
}

/** Dividing by a power of ten rounds once where multiplying by its inverse rounds twice. */
function scaled(whole: number, exponent: number): number {
  return exponent >= 0 ? whole * 10 ** exponent : whole / 10 ** -exponent
}
