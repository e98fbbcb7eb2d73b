import type { Issue } from '../outcome.ts'
import { nearestWord } from '../site/nearest-word.ts'
import { showInstant } from '../site/site-readings.ts'
import type { Suppression } from '../site/tables.ts'

/** Longest that sending may be held back for one reason. */
export const longestSuppressionMs = 14 * 86_400_000

/** Ids that a suppression may name. */
export type SuppressibleIds = Readonly<Record<Suppression['covers'], ReadonlySet<string>>>

export type SuppressionFault = Issue & { readonly column: 'name' | 'untilAt' }

/** What is wrong with a suppression: it names something that exists, and ends within 14 days. */
export function suppressionFaults(
  { covers, name, fromAt, untilAt }: Pick<Suppression, 'covers' | 'name' | 'fromAt' | 'untilAt'>,
  known: SuppressibleIds,
): readonly SuppressionFault[] {
  const faults: SuppressionFault[] = []
  if (!known[covers].has(name)) {
    const nearest = nearestWord(name, known[covers])
    faults.push({
      column: 'name',
      value: name,
      code: `${covers}-unknown`,
      expected: `a ${covers} of this site`,
      message: `There is no ${covers} "${name}". ${nearest ? `Did you mean "${nearest}"?` : `Name a ${covers} of this site.`}`,
    })
  }
  if (untilAt <= fromAt)
    faults.push({
      column: 'untilAt',
      value: showInstant(untilAt),
      code: 'ends-before-begin',
      expected: `later than ${showInstant(fromAt)}`,
      message: `Sending would go on at ${showInstant(untilAt)}, not later than it stops, ${showInstant(fromAt)}. Correct one of the two.`,
    })
  else if (untilAt - fromAt > longestSuppressionMs)
    faults.push({
      column: 'untilAt',
      value: showInstant(untilAt),
      code: 'suppression-too-long',
      expected: `${showInstant(fromAt + longestSuppressionMs)} at the latest`,
      message:
        'Sending may be held back for 14 days at most, so that nobody forgets it. Give an earlier end; it can be done again then, for a reason that still holds.',
    })
  return faults
}
