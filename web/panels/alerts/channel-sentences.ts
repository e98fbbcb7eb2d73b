import type { AlertsDocument } from '#contract/alerts.ts'
import { silentWatchedWords } from '#domain/alerts/silent-watched.ts'
import type { WatchedChannels } from '../../derived/alerts/watched-channels.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'

type Evaluation = AlertsDocument['evaluation']

/** Readings wait for evaluation for moments with every batch; longer than this is worth a word. */
const behindAfterMs = 2 * 60_000

/** Why levels may be reached without an alert, whatever the list says; null: levels are evaluated on all that is here. */
export function evaluationSentence(
  { behind, evaluatedAtEpochMs, failure }: Evaluation,
  nowEpochMs: number,
  timeZone: string,
  { withReason = true }: { readonly withReason?: boolean } = {},
): string | null {
  const reason = withReason && failure !== null ? `: ${withoutStop(failure)}` : ''
  if (evaluatedAtEpochMs === null)
    return `Levels have never been evaluated here, so nothing is raised${reason}.`
  const since = formatShortInstant(evaluatedAtEpochMs, timeZone)
  if (failure !== null)
    return `Evaluation of levels stands still since ${since}${reason}. Readings that came since raise nothing.`
  const ageMs = nowEpochMs - evaluatedAtEpochMs
  return behind && ageMs > behindAfterMs
    ? `Evaluation of levels is ${formatAge(ageMs)} behind: readings that came since ${since} have raised nothing yet.`
    : null
}

/**
 * What the levels say in place of any all-clear: on how many channels none is reached by how recent data, and of how
 * many nothing is known.
 */
export function levelsSentence(
  { watched, unread, unknown, reached }: WatchedChannels,
  evaluation: Evaluation,
  timeZone: string,
): string {
  const notRead = unread === 0 ? '' : `, ${unread} of them read by nothing`
  if (watched === 0) return 'No channel has a level in force: nothing can be raised.'
  if (watched === unread)
    return `No channel that is read has a level in force: nothing can be raised. ${watched} with a level ${watched === 1 ? 'is' : 'are'} read by nothing.`
  if (evaluation.evaluatedAtEpochMs === null || evaluation.failure !== null)
    return `Whether levels are reached on the ${watched} watched channels is not known: they are not being evaluated.`
  const to = formatShortInstant(evaluation.evaluatedAtEpochMs, timeZone)
  const none = `No level reached on ${Math.max(0, watched - unknown - reached)} of ${watched} channels with data to ${to}`
  const some = reached === 0 ? '' : `; a level is reached or being crossed on ${reached}`
  return `${none}${some}; ${unknown} ${unknown === 1 ? 'channel has' : 'channels have'} no current data${notRead}.`
}

/** Of how many watched channels nothing is known now, and since when; null: all have current data. */
export function unknownSentence(
  { watched, unread, unknown, unknownCritical, neverRead, oldestEpochMs }: WatchedChannels,
  timeZone: string,
): string | null {
  if (unknown === 0) return null
  const since =
    oldestEpochMs === null ? '' : `, the oldest since ${formatShortInstant(oldestEpochMs, timeZone)}`
  const never = neverRead === 0 ? '' : `, ${neverRead} never read`
  const critical = unknownCritical === 0 ? '' : `; ${unknownCritical} of them critical`
  return `${silentWatchedWords({ silent: unknown, watched, unread, critical: unknownCritical })}${since}${never}${critical}.`
}

const withoutStop = (words: string) => words.replace(/\.$/, '')
