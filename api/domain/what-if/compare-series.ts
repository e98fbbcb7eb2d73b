import { firstAtOrAfter, lastAtOrBefore, type ReducedSeries } from './reduced-series.ts'

/** How the sandbox's values of a series stand against the official ones. */
export interface SeriesComparison {
  /** Instants of the official readings. */
  readonly atEpochMs: Float64Array
  /** Sandbox less official in the unit of the series; NaN where either has no value. */
  readonly difference: Float64Array
  /** Readings that have both. */
  readonly count: number
  /** Of these, those that differ. */
  readonly changed: number
  /** Null where there is nothing to compare. */
  readonly mean: number | null
  readonly low: { readonly value: number; readonly atEpochMs: number } | null
  readonly high: { readonly value: number; readonly atEpochMs: number } | null
  /** Of the differences about their mean; null below two. */
  readonly standardDeviation: number | null
  /** Readings that have a value officially and none in the sandbox, and the other way round. */
  readonly lost: number
  readonly gained: number
}

/**
 * Both at the instants of official readings. Where clocks were moved, the sandbox's value there lies on the straight line
 * between its readings on either side, at most two intervals apart; farther apart there is none.
 */
export function compareSeries(
  official: ReducedSeries,
  sandbox: ReducedSeries,
  intervalMinutes: number,
): SeriesComparison {
  const { atEpochMs } = official
  const difference = new Float64Array(atEpochMs.length).fill(Number.NaN)
  let [count, changed, lost, gained, sum, squares] = [0, 0, 0, 0, 0, 0]
  let low: SeriesComparison['low'] = null
  let high: SeriesComparison['high'] = null
  for (let at = 0; at < atEpochMs.length; at++) {
    const instant = atEpochMs[at] as number
    const own = official.value[at] as number
    const other = valueAt(sandbox, instant, 2 * intervalMinutes * 60_000)
    if (Number.isNaN(own) && !Number.isNaN(other)) gained++
    if (!Number.isNaN(own) && Number.isNaN(other)) lost++
    if (Number.isNaN(own) || Number.isNaN(other)) continue
    // Both are rounded to decimals: what is left beyond is that of binary numbers.
    const apart = Number((other - own).toFixed(official.decimals + 2))
    difference[at] = apart
    count++
    if (apart !== 0) changed++
    sum += apart
    squares += apart * apart
    if (low === null || apart < low.value) low = { value: apart, atEpochMs: instant }
    if (high === null || apart > high.value) high = { value: apart, atEpochMs: instant }
  }
  const mean = count > 0 ? sum / count : null
  return {
    atEpochMs,
    difference,
    count,
    changed,
    mean,
    low,
    high,
    standardDeviation:
      count < 2 || mean === null ? null : Math.sqrt(Math.max(0, squares - count * mean * mean) / (count - 1)),
    lost,
    gained,
  }
}

/** Value at an instant, on the straight line between two readings where none was taken then; NaN: none. */
function valueAt({ atEpochMs, value }: ReducedSeries, instant: number, widestMs: number): number {
  const before = lastAtOrBefore(atEpochMs, instant)
  if (before >= 0 && atEpochMs[before] === instant) return value[before] as number
  const after = firstAtOrAfter(atEpochMs, instant)
  if (before < 0 || after >= atEpochMs.length) return Number.NaN
  const [from, until] = [atEpochMs[before] as number, atEpochMs[after] as number]
  if (until - from > widestMs) return Number.NaN
  const share = (instant - from) / (until - from)
  return (value[before] as number) * (1 - share) + (value[after] as number) * share
}
