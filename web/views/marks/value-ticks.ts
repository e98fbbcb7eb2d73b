export interface Extent {
  readonly low: number
  readonly high: number
}

/** Round values from low to high, about `count` of them, by steps of 1, 2 or 5 times a power of ten. */
export function valueTicks({ low, high }: Extent, count: number): readonly number[] {
  const step = tickStep({ low, high }, count)
  if (step === 0) return [low]
  const ticks: number[] = []
  for (let index = Math.ceil(low / step - 1e-9); index * step <= high + step * 1e-9; index++)
    ticks.push(Number((index * step).toPrecision(12)))
  return ticks
}

/** Step of those ticks; 0 where low and high are one. */
export function tickStep({ low, high }: Extent, count: number): number {
  const wanted = (high - low) / Math.max(1, count)
  if (!(wanted > 0)) return 0
  const power = 10 ** Math.floor(Math.log10(wanted))
  const digit = wanted / power
  return (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10) * power
}

/** Decimals that tell ticks of a step apart. */
export const stepDecimals = (step: number): number =>
  step <= 0 ? 0 : Math.min(8, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)))

/**
 * Decimals by which evenly stepped values of one unit are said as they are: none for 2 and 4, one for 0.5 and 1. What is off
 * by less than a thousandth of the step, or of a value that stands alone, comes from binary arithmetic and is not said.
 */
export function decimalsApart(values: readonly number[]): number {
  const rising = values.filter(Number.isFinite).toSorted((one, other) => one - other)
  const furthest = Math.max(0, ...rising.map(Math.abs))
  const gaps = rising
    .slice(1)
    .map((value, at) => value - (rising[at] as number))
    .filter((gap) => gap > 1e-6 * furthest)
  const step = gaps.length > 0 ? Math.min(...gaps) : furthest
  const isSaidBy = (decimals: number) =>
    rising.every((value) => Math.abs(Number(value.toFixed(decimals)) - value) <= 1e-3 * step)
  let decimals = 0
  while (decimals < 8 && !isSaidBy(decimals)) decimals++
  return decimals
}

/** Lowest and highest of the finite values; null where there is none. */
export function extentOf(values: Iterable<number>): Extent | null {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const value of values) {
    if (!Number.isFinite(value)) continue
    if (value < low) low = value
    if (value > high) high = value
  }
  return low <= high ? { low, high } : null
}

/** An extent with room around it: a share of its width at each end, and never thinner than `least`. */
export function widened({ low, high }: Extent, share: number, least: number): Extent {
  const middle = (low + high) / 2
  const half = Math.max((high - low) * (0.5 + share), least / 2)
  return { low: middle - half, high: middle + half }
}
