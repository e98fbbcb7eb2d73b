/** Values of one series in order of time, not rounded; NaN: read, but without a value. */
export interface ReducedSeries {
  readonly atEpochMs: Float64Array
  readonly value: Float64Array
  /** Bits of `quality`. */
  readonly quality: Uint8Array
  readonly receivedAfterSeconds: Float64Array
  readonly decimals: number
}

/** Index of the last entry at or before an instant, in instants that grow; −1 where there is none. */
export function lastAtOrBefore(atEpochMs: Float64Array, instant: number): number {
  let low = 0
  let high = atEpochMs.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((atEpochMs[middle] as number) <= instant) low = middle + 1
    else high = middle
  }
  return low - 1
}

/** Index of the first entry at or after an instant; the number of entries where there is none. */
export function firstAtOrAfter(atEpochMs: Float64Array, instant: number): number {
  let low = 0
  let high = atEpochMs.length
  while (low < high) {
    const middle = (low + high) >>> 1
    if ((atEpochMs[middle] as number) < instant) low = middle + 1
    else high = middle
  }
  return low
}

/** Entries from one index to another as they are. */
export function entriesOf(series: ReducedSeries, first: number, end: number): ReducedSeries {
  return {
    atEpochMs: series.atEpochMs.subarray(first, end),
    value: series.value.subarray(first, end),
    quality: series.quality.subarray(first, end),
    receivedAfterSeconds: series.receivedAfterSeconds.subarray(first, end),
    decimals: series.decimals,
  }
}
