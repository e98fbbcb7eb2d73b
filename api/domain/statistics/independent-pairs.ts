/** Lags looked over at most, as a share of the pairs (Pyper and Peterman 1998, p. 2131). */
const lagShare = 0.2

/**
 * How many of the pairs of two series on one even grid count as independent for their correlation, where each hangs
 * together in time: 1/N* = 1/N + 2/N · Σⱼ (1 − j/N) rₓ(j) r_y(j), after Bartlett (1946) as Pyper and Peterman (1998,
 * eq. 1) use it, over lags up to a fifth of N. NaN: nothing there; autocorrelations are of the values that are. Never more
 * than there are, nor fewer than 2.
 */
export function independentPairs(one: Float64Array, other: Float64Array): number {
  let pairs = 0
  for (let i = 0; i < one.length; i++) if (Number.isFinite(one[i]) && Number.isFinite(other[i])) pairs++
  if (pairs < 3) return pairs
  const [first, second] = [autocorrelations(one, pairs), autocorrelations(other, pairs)]
  let sum = 0
  for (let lag = 1; lag < Math.min(first.length, second.length); lag++)
    sum += (1 - lag / pairs) * (first[lag] as number) * (second[lag] as number)
  const inverse = 1 / pairs + (2 / pairs) * sum
  return inverse <= 1 / pairs ? pairs : Math.max(2, 1 / inverse)
}

/** At lags 0, 1, … up to a fifth of `pairs`: mean product of what is there, over the variance (their eq. 7); 0 where too little is. */
function autocorrelations(series: Float64Array, pairs: number): Float64Array {
  const most = Math.floor(lagShare * pairs)
  let [count, sum] = [0, 0]
  for (const value of series)
    if (Number.isFinite(value)) {
      count++
      sum += value
    }
  const away = series.map((value) => value - sum / count)
  let squares = 0
  for (const value of away) if (Number.isFinite(value)) squares += value * value
  const found = new Float64Array(most + 1)
  for (let lag = 1; lag <= most && squares > 0; lag++) {
    let [there, products] = [0, 0]
    for (let i = lag; i < away.length; i++) {
      const product = (away[i] as number) * (away[i - lag] as number)
      if (!Number.isFinite(product)) continue
      there++
      products += product
    }
    if (there >= 3) found[lag] = products / there / (squares / count)
  }
  return found
}
