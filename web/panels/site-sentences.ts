import type { StandingSummary } from '../state/standing-summary.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** How many series are silent, and the longest since when. Null: nothing has been judged. */
export function silenceSentence(summary: StandingSummary | null, timeZone: string): string {
  if (summary === null) return 'Not known yet for this instant'
  if (summary.late === 0) return `All ${summary.series} series have current data`
  const since =
    summary.lateSinceEpochMs === null
      ? ''
      : `, the longest since ${formatShortInstant(summary.lateSinceEpochMs, timeZone)}`
  return `${summary.late} of ${summary.series} series without current data${since}`
}

/** How many series stand at each level. */
export function levelTally(summary: StandingSummary | null, levelNames: readonly string[]): string {
  if (summary === null) return 'Not known yet'
  const reached = summary.reached.flatMap((count, place) =>
    count === 0 ? [] : `${levelNames[place] ?? `Level ${place + 1}`}: ${count}`,
  )
  const within = `${summary.within} within levels`
  return reached.length === 0
    ? `None by current data; ${within}`
    : `${reached.reverse().join(' · ')} · ${within}`
}

/** What must be read with every state of the ground. `summary` null: nothing has been judged. */
export function cautionSentence(summary: StandingSummary | null): string {
  const silent = summary === null ? 'The' : `${summary.late} of ${summary.series}`
  const channels =
    summary === null
      ? 'states are not known yet.'
      : `series ${summary.late === 1 ? 'has' : 'have'} no current data.`
  return `Readings are provisional until approved. No alert does not mean no movement: ${silent.toLowerCase()} ${channels} Monitoring supports and does not replace the judgement of the responsible engineer; follow the project’s response plan and local regulations.`
}
