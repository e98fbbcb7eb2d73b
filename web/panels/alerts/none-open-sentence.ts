import type { AlertsStanding } from '../../derived/alerts/alerts-standing.ts'

/**
 * What stands in place of a selection's open alerts where none is known, at the clock as the list reaches it. `atLevel`: it
 * stands at a level all the same.
 */
export function noneOpenSentence(
  standing: AlertsStanding,
  clock: { readonly isPast: boolean; readonly mayLack: boolean } | null,
  atLevel: boolean,
): string {
  if (standing.kind === 'unknown') return standing.sentence
  const reached = atLevel
    ? ' Yet a level is reached: what it raised was closed, it has not stood long enough, or its readings are not evaluated yet.'
    : ''
  const old = `${reached}${standing.kind === 'last-known' ? ` ${standing.sentence}` : ''}`
  if (clock?.mayLack)
    return `None of those still listed was open at the clock. Alerts closed more than 90 days ago are not listed: whether one was open then is not known.${old}`
  if (clock?.isPast) return `None was open at the clock, by what is on record now.${old}`
  return standing.kind === 'last-known'
    ? `None was open when last heard.${old}`
    : `None is open. That says nothing of channels without current data.${reached}`
}
