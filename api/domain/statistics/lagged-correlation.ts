/** How closely one series follows another, and how far behind. */
export interface LaggedCorrelation {
  /** Steps by which the first lags the second where they go together best. */
  readonly lag: number
  /** Lags whose correlation is not told from the best one, 95 % (Fisher's z, values that hang together counted less). */
  readonly lagInterval: readonly [number, number]
  readonly correlation: number
  /** Change of the first for one unit of the second, at the best lag. */
  readonly slope: number
  /** Pairs of values at the best lag, and how many of them count. */
  readonly pairs: number
  readonly independentPairs: number
}

const fewestPairs = 24

/**
 * The lag from 0 to `mostLag` steps at which `follower` goes with `leader` best, by the absolute correlation of both on one
 * even grid (NaN: nothing there). Null with fewer than 24 pairs, or where one of the two does not vary.
 */
export function laggedCorrelation(
  follower: Float64Array,
  leader: Float64Array,
  mostLag: number,
): LaggedCorrelation | null {
  const all = Array.from({ length: mostLag + 1 }, (_, lag) => at(follower, leader, lag))
  const best = all.reduce<At | null>(
    (one, other) =>
      other !== null && (one === null || Math.abs(other.correlation) > Math.abs(one.correlation))
        ? other
        : one,
    null,
  )
  if (best === null) return null
  const counted = Math.max(4, best.pairs * independence(follower, leader))
  const half = 1.96 / Math.sqrt(Math.max(1, counted - 3))
  const least = Math.tanh(Math.max(0, Math.atanh(Math.min(0.999999, Math.abs(best.correlation))) - half))
  const near = all.flatMap((one) => (one !== null && Math.abs(one.correlation) >= least ? [one.lag] : []))
  return {
    lag: best.lag,
    lagInterval: [Math.min(best.lag, ...near), Math.max(best.lag, ...near)],
    correlation: best.correlation,
    slope: best.slope,
    pairs: best.pairs,
    independentPairs: counted,
  }
}

interface At {
  readonly lag: number
  readonly correlation: number
  readonly slope: number
  readonly pairs: number
}

function at(follower: Float64Array, leader: Float64Array, lag: number): At | null {
  let pairs = 0
  let [x, y, xx, yy, xy] = [0, 0, 0, 0, 0]
  for (let i = lag; i < follower.length; i++) {
    const one = leader[i - lag] as number
    const other = follower[i] as number
    if (!Number.isFinite(one) || !Number.isFinite(other)) continue
    pairs++
    x += one
    y += other
    xx += one * one
    yy += other * other
    xy += one * other
  }
  const squares = xx - (x * x) / pairs
  const others = yy - (y * y) / pairs
  if (pairs < fewestPairs || squares <= 1e-12 * xx || others <= 1e-12 * yy) return null
  const product = xy - (x * y) / pairs
  return { lag, correlation: product / Math.sqrt(squares * others), slope: product / squares, pairs }
}

/** Share of the pairs that count where both hang together from step to step: (1 − ab) / (1 + ab) (Bartlett 1935). */
function independence(one: Float64Array, other: Float64Array): number {
  const together = Math.min(0.98, Math.max(0, fromStepToStep(one) * fromStepToStep(other)))
  return (1 - together) / (1 + together)
}

function fromStepToStep(series: Float64Array): number {
  let [pairs, products, squares, sum] = [0, 0, 0, 0]
  for (let i = 1; i < series.length; i++) {
    const [before, now] = [series[i - 1] as number, series[i] as number]
    if (!Number.isFinite(before) || !Number.isFinite(now)) continue
    pairs++
    products += before * now
    squares += now * now
    sum += now
  }
  const mean = sum / pairs
  const variance = squares / pairs - mean * mean
  return pairs < 3 || variance <= 0 ? 0 : (products / pairs - mean * mean) / variance
}
