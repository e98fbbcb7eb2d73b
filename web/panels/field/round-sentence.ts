import { formatAge, formatInstant } from '../../ui/format-instant.ts'

/** That a round was made from states that are not the present; `silent`: the server does not answer. */
export function oldRoundSentence(
  asOfEpochMs: number,
  ageMs: number,
  silent: boolean,
  timeZone: string,
): string {
  const age = ageMs >= 60_000 ? `, ${formatAge(ageMs)} old` : ''
  const why = silent ? 'The server does not answer' : 'They are not the present'
  return `States as of ${formatInstant(asOfEpochMs, timeZone)}${age}. ${why}: what fell silent or reached a level since is not in this round.`
}

/** What a round finds. Of old states an empty round says nothing of what is due or wrong now. */
export function foundSentence(stops: number, lengthText: string, old: boolean): string {
  if (stops > 0) return `${stops} ${stops === 1 ? 'place' : 'places'}, ${lengthText} in straight lines.`
  return old
    ? 'From them no place is known to go to; that says nothing of now.'
    : 'Nothing is due or known to be wrong. What has no current data is listed under Silence.'
}
