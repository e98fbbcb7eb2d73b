/** A UTC calendar month as slices are cut: `2027-03`, from its first instant to that of the next. */
export interface Month {
  readonly name: string
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
}

/** Months that the instants from `fromEpochMs` to `untilEpochMs` (inclusive) fall in. */
export function monthsBetween(fromEpochMs: number, untilEpochMs: number): readonly Month[] {
  const months: Month[] = []
  const first = new Date(fromEpochMs)
  let year = first.getUTCFullYear()
  let month = first.getUTCMonth()
  while (Date.UTC(year, month) <= untilEpochMs) {
    const next = Date.UTC(year, month + 1)
    months.push({
      name: new Date(Date.UTC(year, month)).toISOString().slice(0, 7),
      fromEpochMs: Date.UTC(year, month),
      untilEpochMs: next,
    })
    year = new Date(next).getUTCFullYear()
    month = new Date(next).getUTCMonth()
  }
  return months
}
