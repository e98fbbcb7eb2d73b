import type { AlertsStanding } from '../../derived/alerts/alerts-standing.ts'

/** What stands in place of a selection's open alerts where none is known, at the clock as the list reaches it. */
export function noneOpenSentence(
  standing: AlertsStanding,
  clock: { readonly isPast: boolean; readonly mayLack: boolean } | null,
): string {
  if (standing.kind === 'unknown') return standing.sentence
  const old = standing.kind === 'last-known' ? ` ${standing.sentence}` : ''
  if (clock?.mayLack)
    return `None of those still listed was open at the clock. Alerts closed more than 90 days ago are not listed: whether one was open then is not known.${old}`
  if (clock?.isPast) return `None was open at the clock, by what is on record now.${old}`
  return standing.kind === 'last-known'
    ? `None was open when last heard.${old}`
    : 'None is open. That says nothing of channels without current data.'
}
