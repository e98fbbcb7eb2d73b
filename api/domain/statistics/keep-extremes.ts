export interface KeptReadings {
  /** Indices into the readings, ascending; where readings are absent, one absent reading stands for the run. */
  readonly indices: Int32Array
  /** Index pairs into the readings between which nothing is known: a line must not join them. */
  readonly gaps: readonly (readonly [before: number, after: number])[]
}

/**
 * Thins readings for drawing. Of each of `buckets` equal spans of time it keeps the first, the last, the lowest and
 * the highest reading (the earliest of equals), so that no peak is lost, and the readings on both sides of every gap.
 * A gap is a run of absent (null or NaN) values or two readings more than `longestGapMs` apart.
 * Times are epoch milliseconds, ascending; at most six readings a bucket and gap come back.
 */
export function keepExtremes(
  atEpochMs: ArrayLike<number>,
  values: ArrayLike<number | null>,
  buckets: number,
  longestGapMs = Number.POSITIVE_INFINITY,
): KeptReadings {
  const count = values.length
  const kept: number[] = []
  const gaps: [number, number][] = []
  if (count === 0 || buckets < 1) return { indices: Int32Array.from(kept), gaps }
  const start = atEpochMs[0] as number
  const span = ((atEpochMs[count - 1] as number) - start) / buckets || 1
  let known = -1
  let bucket: Bucket | null = null
  let absent = -1

  for (let index = 0; index < count; index++) {
    const value = values[index] ?? Number.NaN
    if (Number.isNaN(value)) {
      if (absent < 0) absent = index
      continue
    }
    const at = atEpochMs[index] as number
    const number = Math.min(buckets - 1, Math.floor((at - start) / span))
    const isGap = known >= 0 && (absent >= 0 || at - (atEpochMs[known] as number) > longestGapMs)
    if (bucket && (bucket.number !== number || isGap)) {
      flush(bucket, kept)
      bucket = null
    }
    if (absent >= 0) kept.push(absent)
    if (isGap) gaps.push([known, index])
    absent = -1
    known = index
    if (!bucket) bucket = { number, first: index, last: index, low: index, high: index }
    else {
      bucket.last = index
      if (value < (values[bucket.low] as number)) bucket.low = index
      if (value > (values[bucket.high] as number)) bucket.high = index
    }
  }
  if (bucket) flush(bucket, kept)
  if (absent >= 0) kept.push(absent)
  return { indices: Int32Array.from(kept), gaps }
}

/** Indices of the readings kept of one bucket, or of the part of it on one side of a gap. */
interface Bucket {
  readonly number: number
  readonly first: number
  last: number
  low: number
  high: number
}

function flush({ first, last, low, high }: Bucket, kept: number[]): void {
  const middle = low < high ? [low, high] : [high, low]
  let before = -1
  for (const index of [first, ...middle, last]) {
    if (index !== before) kept.push(index)
    before = index
  }
}
