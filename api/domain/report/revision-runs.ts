import { groupBy } from '../group-by.ts'
import type { RevisedValue } from './revised-values.ts'
import { siteDay } from './site-days.ts'

/** Revised values of one series, close together in time and for one reason. */
export interface RevisionRun<R extends string> {
  readonly series: number
  readonly reason: R
  readonly values: readonly RevisedValue[]
}

/** A line of a table of revisions: one value, or those of one day of the site. */
export interface RevisionLine {
  /** Instant of the first value. */
  readonly atEpochMs: number
  /** Readings that it stands for; 1: the value itself. */
  readonly readings: number
  /** The value; of several, the mean of those that were there. Null: there was none. */
  readonly before: number | null
  readonly after: number | null
}

/** Revised values as runs: they part where the reason changes, and where more than `longestGapMs` lies between two. */
export function revisionRuns<R extends string>(
  values: readonly RevisedValue[],
  reasonOf: (value: RevisedValue) => R,
  longestGapMs: (series: number) => number,
): readonly RevisionRun<R>[] {
  const runs: { series: number; reason: R; values: RevisedValue[] }[] = []
  for (const value of values) {
    const reason = reasonOf(value)
    const run = runs.at(-1)
    const last = run?.values.at(-1)
    if (
      run &&
      last &&
      run.series === value.series &&
      run.reason === reason &&
      value.atEpochMs - last.atEpochMs <= longestGapMs(value.series)
    )
      run.values.push(value)
    else runs.push({ series: value.series, reason, values: [value] })
  }
  return runs
}

/** A run value by value, or where there are more than `mostValues`, day by day of the site with the count of readings. */
export function revisionLines(
  { values }: Pick<RevisionRun<string>, 'values'>,
  timeZone: string,
  mostValues: number,
): readonly RevisionLine[] {
  if (values.length <= mostValues)
    return values.map(({ atEpochMs, before, after }) => ({ atEpochMs, readings: 1, before, after }))
  const days = groupBy(values, ({ atEpochMs }) => siteDay(atEpochMs, timeZone))
  return [...days.values()].map((ofDay) => ({
    atEpochMs: (ofDay[0] as RevisedValue).atEpochMs,
    readings: ofDay.length,
    before: meanOf(ofDay.map(({ before }) => before)),
    after: meanOf(ofDay.map(({ after }) => after)),
  }))
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null)
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length
}
