import { groupBy } from '../group-by.ts'
import type { RevisedValue } from './revised-values.ts'
import { isoDay, siteDays } from './site-days.ts'

/** Revised values of one series, close together in time and for one reason. */
export interface RevisionRun<R extends string> {
  readonly series: number
  readonly reason: R
  readonly values: readonly RevisedValue[]
}

/** A line of a table of revisions: one value, or those of one day or month of the site. */
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

/** How finely runs of revised values are told. */
export const revisionSteps = ['value', 'day', 'month'] as const
export type RevisionStep = (typeof revisionSteps)[number]

/** A run value by value, or by days or months of the site with the mean of its readings and how many they are. */
export function revisionLines(
  { values }: Pick<RevisionRun<string>, 'values'>,
  timeZone: string,
  step: RevisionStep,
): readonly RevisionLine[] {
  if (step === 'value')
    return values.map(({ atEpochMs, before, after }) => ({ atEpochMs, readings: 1, before, after }))
  const dayOf = siteDays(timeZone)
  const together = groupBy(values, ({ atEpochMs }) => {
    const day = isoDay(dayOf(atEpochMs))
    return step === 'day' ? day : day.slice(0, 7)
  })
  return [...together.values()].map((ones) => ({
    atEpochMs: (ones[0] as RevisedValue).atEpochMs,
    readings: ones.length,
    before: meanOf(ones.map(({ before }) => before)),
    after: meanOf(ones.map(({ after }) => after)),
  }))
}

/** Runs up to this are told value by value, however many there are beside them. */
const shortRun = 24
/** Lines that a reader is given at most of each step. */
const mostLines = { value: 400, day: 1500 } as const

/**
 * The finest step by which all runs together stay readable, and the lines of each run by it; short runs are always told
 * value by value.
 */
export function readableLines<R extends string>(
  runs: readonly RevisionRun<R>[],
  timeZone: string,
): { readonly step: RevisionStep; readonly lines: readonly (readonly RevisionLine[])[] } {
  for (const step of revisionSteps) {
    const lines = runs.map((run) =>
      revisionLines(run, timeZone, run.values.length <= shortRun ? 'value' : step),
    )
    const count = lines.reduce((sum, { length }) => sum + length, 0)
    if (step === 'month' || count <= mostLines[step]) return { step, lines }
  }
  return { step: 'month', lines: [] }
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null)
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length
}
