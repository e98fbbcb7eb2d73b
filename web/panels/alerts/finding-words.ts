import type { Finding } from '#domain/alerts/alert-event.ts'

/** What was found, in a word. */
export const findingWords: Readonly<Record<Finding, string>> = {
  movement: 'real',
  nuisance: 'nuisance',
  false: 'false',
}

/** What each finding means, where somebody chooses one. */
export const findingMeanings: Readonly<Record<Finding, string>> = {
  movement: 'Real: it moved, or fell silent, as was told, and it mattered',
  nuisance: 'Nuisance: it happened, and asked for nothing',
  false: 'False: it did not happen; the measuring was at fault',
}
