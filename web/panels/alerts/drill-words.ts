import type { AlertsDocument, ListedAlert } from '#contract/alerts.ts'
import { formatAge, formatInstant, formatShortInstant } from '../../ui/format-instant.ts'

/** How the monthly drill stands; whole sentences. */
export function drillStandingSentence(drill: AlertsDocument['drill'], timeZone: string): string {
  if (drill === null)
    return 'No monthly drill is planned: give drillDayOfMonth, drillTime and drillDuty in site.csv. A chain that is not tested may be broken without a sign.'
  const { duty, dueEpochMs, nextEpochMs, heldEpochMs, lastEpochMs } = drill
  const next = `The next is due ${formatInstant(nextEpochMs, timeZone)}.`
  if (heldEpochMs !== null)
    return `The drill for ${duty} due ${formatInstant(dueEpochMs, timeZone)} was held ${formatInstant(heldEpochMs, timeZone)}. ${next}`
  const last =
    lastEpochMs === null
      ? 'None was ever held.'
      : `The last was held ${formatInstant(lastEpochMs, timeZone)}.`
  return `The drill for ${duty} due ${formatInstant(dueEpochMs, timeZone)} was not held: hold it now. ${last} ${next}`
}

/** What a drill showed: whether a message arrived, and how soon somebody took it up; a whole sentence. */
export function drillEvidence(
  {
    raisedAtEpochMs,
    attempts,
    acknowledged,
  }: Pick<ListedAlert, 'raisedAtEpochMs' | 'attempts' | 'acknowledged'>,
  timeZone: string,
): string {
  const handed = attempts?.filter(({ outcome }) => outcome === 'delivered') ?? []
  const failed = attempts?.filter(({ outcome }) => outcome !== 'delivered') ?? []
  const first = Math.min(...handed.map(({ atEpochMs }) => atEpochMs))
  const told =
    handed.length === 0
      ? 'no message was handed over'
      : `first message handed over after ${formatAge(first - raisedAtEpochMs)}, ${handed.length} in all`
  const not = failed.length === 0 ? '' : `, ${failed.length} not`
  const taken = acknowledged
    ? `taken up by ${acknowledged.by} after ${formatAge(acknowledged.atEpochMs - raisedAtEpochMs)}`
    : 'nobody has taken it up'
  return `${formatShortInstant(raisedAtEpochMs, timeZone)}: ${told}${not}; ${taken}.`
}
