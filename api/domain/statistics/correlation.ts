import { independentPairs } from './independent-pairs.ts'
import { normalQuantile } from './normal-quantile.ts'

/** How closely two series go together. */
export interface Correlation {
  /** −1 to 1. */
  readonly correlation: number
  /** 95 %; −1 to 1 where so few pairs are independent that nothing can be told. */
  readonly interval: readonly [low: number, high: number]
  readonly pairs: number
  /** Pairs that count, since both hang together in time. */
  readonly independentPairs: number
}

const fewestPairs = 8

/**
 * Pearson's correlation of two series on one even grid (NaN: nothing there), its interval by Fisher's z of the pairs that
 * count as independent. Null with fewer than eight pairs, or where one does not vary.
 */
export function correlationOf(one: Float64Array, other: Float64Array): Correlation | null {
  const found = pearson(one, other, 0)
  if (found === null) return null
  const independent = Math.min(found.pairs, independentPairs(one, other))
  return { ...found, independentPairs: independent, interval: fisherInterval(found.correlation, independent) }
}

/**
 * Spearman's rank correlation, equal values sharing their mean rank. Its interval is Fisher's, wider by the square root of 1.06
 * (Fieller, Hartley and Pearson 1957), of the pairs whose ranks count as independent. Null as of `correlationOf`.
 */
export function rankCorrelation(one: Float64Array, other: Float64Array): Correlation | null {
  const isPair = (i: number) => Number.isFinite(one[i]) && Number.isFinite(other[i])
  const [first, second] = [
    ranks(one.map((value, i) => (isPair(i) ? value : Number.NaN))),
    ranks(other.map((value, i) => (isPair(i) ? value : Number.NaN))),
  ]
  const found = correlationOf(first, second)
  return found && { ...found, interval: fisherInterval(found.correlation, found.independentPairs, 1.06) }
}

/** Interval of a correlation of so many independent pairs (Fisher 1921); `widening` multiplies the variance of z. */
export function fisherInterval(
  correlation: number,
  independent: number,
  widening = 1,
  confidence = 0.95,
): readonly [low: number, high: number] {
  if (independent <= 3) return [-1, 1]
  const half = normalQuantile((1 + confidence) / 2) * Math.sqrt(widening / (independent - 3))
  const z = Math.atanh(Math.min(1 - 1e-15, Math.max(-1 + 1e-15, correlation)))
  return [Math.tanh(z - half), Math.tanh(z + half)]
}

/** Pearson's correlation of `one` with `other` read `lag` steps earlier; null with too few pairs or nothing that varies. */
export function pearson(
  one: Float64Array,
  other: Float64Array,
  lag: number,
): { readonly correlation: number; readonly pairs: number } | null {
  let [pairs, x, y] = [0, 0, 0]
  const [from, until] = [Math.max(0, lag), Math.min(one.length, other.length + lag)]
  for (let i = from; i < until; i++) {
    const [a, b] = [other[i - lag] as number, one[i] as number]
    if (!Number.isFinite(a) || !Number.isFinite(b)) continue
    pairs++
    x += a
    y += b
  }
  if (pairs < fewestPairs) return null
  const [meanX, meanY] = [x / pairs, y / pairs]
  let [xx, yy, xy] = [0, 0, 0]
  for (let i = from; i < until; i++) {
    const [a, b] = [(other[i - lag] as number) - meanX, (one[i] as number) - meanY]
    if (!Number.isFinite(a) || !Number.isFinite(b)) continue
    xx += a * a
    yy += b * b
    xy += a * b
  }
  // Equal values differ in the last bits of their mean: that is no variation.
  const varies = (squares: number, middle: number) => squares > pairs * (1e-9 * Math.abs(middle)) ** 2
  if (!varies(xx, meanX) || !varies(yy, meanY)) return null
  return { correlation: Math.min(1, Math.max(-1, xy / Math.sqrt(xx * yy))), pairs }
}

/** Ranks from 1, equal values sharing their mean rank; NaN stays. */
function ranks(values: Float64Array): Float64Array {
  const order = [...values.keys()]
    .filter((i) => Number.isFinite(values[i]))
    .sort((a, b) => (values[a] as number) - (values[b] as number))
  const ranked = new Float64Array(values.length).fill(Number.NaN)
  for (let from = 0; from < order.length; ) {
    let until = from + 1
    while (until < order.length && values[order[until] as number] === values[order[from] as number]) until++
    for (let i = from; i < until; i++) ranked[order[i] as number] = (from + until + 1) / 2
    from = until
  }
  return ranked
}
