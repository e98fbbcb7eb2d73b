import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import { showInstant } from './site-readings.ts'
import type { Verdict } from './tables.ts'

/** A fault of a verdict, at a column of its table. */
export type VerdictFault = Issue & { readonly column: 'series' | 'untilAt' }

/** What is wrong with a verdict: it is about a series that exists and a stretch of time that has a length. */
export function verdictFaults(
  row: Pick<Verdict, 'id' | 'series' | 'fromAt' | 'untilAt'>,
  known: ReadonlySet<string>,
  sensorsFile: string,
): readonly VerdictFault[] {
  const found: VerdictFault[] = []
  if (!known.has(row.series)) {
    const nearest = nearestWord(row.series, known)
    found.push({
      column: 'series',
      value: row.series,
      code: 'series-unknown',
      expected: `a sensor of ${sensorsFile}, or a series that an instrument derives, such as ST-01/force`,
      message: `There is no series "${row.series}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
    })
  }
  if (row.untilAt !== null && row.untilAt <= row.fromAt)
    found.push({
      column: 'untilAt',
      value: showInstant(row.untilAt),
      code: 'ends-before-begin',
      expected: `later than fromAt, ${showInstant(row.fromAt)}`,
      message: `${row.id} would end at ${showInstant(row.untilAt)}, not later than it begins, ${showInstant(row.fromAt)}. Correct one of the two, or leave untilAt empty while it lasts.`,
    })
  return found
}
