import type { StandingSummary } from '../state/standing-summary.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/**
 * How many series are silent, and the longest since when. Null: nothing has been judged. `isPast`: the states are
 * the last known, so that nothing can be said of the present.
 */
export function silenceSentence(summary: StandingSummary | null, timeZone: string, isPast = false): string {
  if (summary === null) return 'Not known yet for this instant'
  const { late, series, atEpochMs, lateSinceEpochMs } = summary
  const then = `At ${formatShortInstant(atEpochMs, timeZone)}`
  if (late === 0)
    return isPast
      ? `${then} all ${series} series had data; since then not known`
      : series === 0
        ? 'No series is in use'
        : `All ${series} series in use have current data`
  const since =
    lateSinceEpochMs === null ? '' : `, the longest since ${formatShortInstant(lateSinceEpochMs, timeZone)}`
  return isPast
    ? `${then} ${late} of ${series} series were without data${since}; since then not known`
    : `${late} of ${series} series without current data${since}`
}

/** How many series stand at each level; `isPast` as above. */
export function levelTally(
  summary: StandingSummary | null,
  levelNames: readonly string[],
  timeZone: string,
  isPast = false,
): string {
  if (summary === null) return 'Not known yet'
  const reached = summary.reached.flatMap((count, place) =>
    count === 0 ? [] : `${levelNames[place] ?? `Level ${place + 1}`}: ${count}`,
  )
  // Rates, silences and what is combined are judged by the server alone, and told as alerts.
  const { otherLevels } = summary
  const others = otherLevels === 0 ? '' : `; ${otherLevels} of other kinds: see Alerts`
  const within = `${summary.within} within levels${others}`
  const by = otherLevels === 0 ? 'data' : 'values'
  const none = isPast ? `none by ${by} of then` : `None by current ${by}`
  const tally = reached.length === 0 ? `${none}; ${within}` : `${reached.reverse().join(' · ')} · ${within}`
  return isPast
    ? `At ${formatShortInstant(summary.atEpochMs, timeZone)}: ${tally}; since then not known`
    : tally
}

/** What must be read with every state of the ground. `summary` null: nothing has been judged; `isPast` as above. */
export function cautionSentence(summary: StandingSummary | null, timeZone: string, isPast = false): string {
  return `Readings are provisional until approved. No alert does not mean no movement: ${channelsSentence(summary, timeZone, isPast)} Monitoring supports and does not replace the judgement of the responsible engineer; follow the project’s response plan and local regulations.`
}

function channelsSentence(summary: StandingSummary | null, timeZone: string, isPast: boolean): string {
  if (summary === null) return 'the states are not known yet.'
  const { late, series, atEpochMs } = summary
  return isPast
    ? `at ${formatShortInstant(atEpochMs, timeZone)} ${late} of ${series} series had no data; what fell silent or reached a level since then is not known.`
    : `${late} of ${series} series ${late === 1 ? 'has' : 'have'} no current data.`
}
