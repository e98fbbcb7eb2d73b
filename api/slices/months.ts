/** A UTC calendar month as slices are cut: `2027-03`, from its first instant to that of the next. */
export interface Month {
  readonly name: string
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
}

/** The month of a name, `2027-03`; empty: it is none. */
export const monthOf = (name: string): readonly Month[] => {
  const begins = Date.parse(`${name}-01T00:00:00Z`)
  return Number.isNaN(begins) ? [] : monthsBetween(begins, begins)
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
