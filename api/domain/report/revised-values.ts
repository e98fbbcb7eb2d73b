/** Values of several series in order of series, then time: parallel arrays. */
export interface SeriesValues {
  readonly series: Float64Array
  readonly atEpochMs: Float64Array
  /** NaN: read, but without a value. */
  readonly value: Float64Array
}

/** A value that is told otherwise than it was. */
export interface RevisedValue {
  readonly series: number
  readonly atEpochMs: number
  /** Null: there was none, or is none now. */
  readonly before: number | null
  readonly after: number | null
  /** Rows that it was told in before and is told in now; null: in none. */
  readonly beforeRow: number | null
  readonly afterRow: number | null
}

/**
 * What differs between two tellings of the same stretch, value by value, in order of series and time. Values that are
 * alike in the decimals of their series are alike; a reading without a value is like none at all.
 */
export function revisedValues(
  before: SeriesValues,
  after: SeriesValues,
  decimalsOf: (series: number) => number,
): readonly RevisedValue[] {
  const revised: RevisedValue[] = []
  let [old, now] = [0, 0]
  while (old < before.series.length || now < after.series.length) {
    const order = compare(before, old, after, now)
    const place = order <= 0 ? ([before, old] as const) : ([after, now] as const)
    const series = place[0].series[place[1]] as number
    const was = order <= 0 ? known(before.value[old]) : null
    const is = order >= 0 ? known(after.value[now]) : null
    if (!isAlike(was, is, decimalsOf(series)))
      revised.push({
        series,
        atEpochMs: place[0].atEpochMs[place[1]] as number,
        before: was,
        after: is,
        beforeRow: order <= 0 ? old : null,
        afterRow: order >= 0 ? now : null,
      })
    if (order <= 0) old++
    if (order >= 0) now++
  }
  return revised
}

function compare(one: SeriesValues, row: number, other: SeriesValues, otherRow: number): number {
  if (row >= one.series.length) return 1
  if (otherRow >= other.series.length) return -1
  const series = (one.series[row] as number) - (other.series[otherRow] as number)
  return series !== 0 ? series : (one.atEpochMs[row] as number) - (other.atEpochMs[otherRow] as number)
}

const known = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null

function isAlike(was: number | null, is: number | null, decimals: number): boolean {
  if (was === null || is === null) return was === is
  const unit = 10 ** decimals
  return Math.round(was * unit) === Math.round(is * unit)
}
