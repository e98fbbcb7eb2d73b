import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import { showInstant } from './site-readings.ts'
import type { Verdict } from './tables.ts'
import { unknownEffects, verdictCauses, verdictConfidences, verdictEffects } from './verdict-words.ts'

/** A fault of a verdict, at a column of its table. */
export type VerdictFault = Issue & { readonly column: 'series' | 'untilAt' | 'confidence' | 'effects' }

/**
 * What is wrong with a verdict: it is about a series that exists and a stretch of time that has a length, a cause has a
 * confidence, and its effects are ones that are known. Those from before there were causes have none.
 */
export function verdictFaults(
  row: Pick<Verdict, 'id' | 'series' | 'fromAt' | 'untilAt' | 'cause' | 'confidence' | 'effects'>,
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
  if ((row.cause ?? null) !== null && (row.confidence ?? null) === null)
    found.push({
      column: 'confidence',
      value: '',
      code: 'confidence-missing',
      expected: verdictConfidences.join(', '),
      message: `${row.id} names a cause and not how sure its author is of it. Choose one of: ${verdictConfidences.join(', ')}.`,
    })
  if ((row.cause ?? null) === null && (row.confidence ?? null) !== null)
    found.push({
      column: 'confidence',
      value: row.confidence ?? '',
      code: 'cause-missing',
      expected: 'empty where no cause is named',
      message: `${row.id} says how sure its author is, and of no cause. Name the cause: ${verdictCauses.join(', ')}.`,
    })
  for (const word of unknownEffects(row.effects))
    found.push({
      column: 'effects',
      value: word,
      code: 'effect-unknown',
      expected: verdictEffects.join('; '),
      message: `"${word}" is no effect of a verdict. Write one or several of these, with semicolons between: ${verdictEffects.join('; ')}.`,
    })
  return found
}
