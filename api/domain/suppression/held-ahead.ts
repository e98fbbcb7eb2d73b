import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { showInstant } from '../site/site-readings.ts'
import { siteTables } from '../site/tables.ts'
import type { StandingSuppression } from './held-back.ts'
import { longestSuppressionMs } from './suppression-faults.ts'

/**
 * Suppressions of a file by which sending would be held back for longer than 14 days on end from an instant on, one after
 * another about the same: each is short enough, and together they are forgotten. What lies before the instant does not
 * count: a reason that still held was given again then.
 */
export function heldTooLongAhead(
  suppressions: readonly StandingSuppression[],
  presentEpochMs: number,
): readonly Issue[] {
  const ahead = suppressions.filter(({ untilEpochMs }) => untilEpochMs > presentEpochMs)
  const about = groupBy(ahead, ({ suppression }) => JSON.stringify([suppression.covers, suppression.name]))
  return [...about.values()].flatMap((records) => {
    let begun = Number.NEGATIVE_INFINITY
    let until = Number.NEGATIVE_INFINITY
    for (const { suppression, untilEpochMs } of records.toSorted(
      (one, other) => one.suppression.fromAt - other.suppression.fromAt,
    )) {
      const from = Math.max(suppression.fromAt, presentEpochMs)
      if (from > until) begun = from
      until = Math.max(until, untilEpochMs)
      if (until - begun > longestSuppressionMs) return [issueOf(suppression, begun, until)]
    }
    return []
  })
}

const issueOf = (
  { id, covers, name }: StandingSuppression['suppression'],
  fromEpochMs: number,
  untilEpochMs: number,
): Issue => ({
  code: 'suppressions-too-long-together',
  file: siteTables.suppressions.file,
  column: 'untilAt',
  value: id,
  message: `With ${id} nothing would be sent about the ${covers} ${name} from ${showInstant(fromEpochMs)} to ${showInstant(untilEpochMs)}: 14 days on end are the most, so that nobody forgets it. Leave the later ones out; sending can be held back again then, for a reason that still holds.`,
})
