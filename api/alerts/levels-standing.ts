import type { AlertsDocument } from '#contract/alerts.ts'

/** What evaluation knows of the levels of a site beside the alerts that were raised. */
export type LevelsStanding = Pick<AlertsDocument, 'evaluation' | 'crossings' | 'unknown' | 'watchedSeries'>
