import type { Query } from '../engine/query.ts'
import { lastAtOrBefore } from './last-at-or-before.ts'

/**
 * Values of the series shown on a section at the site clock.
 * Columns: series, last_at_ms, value, quality.
 */
export const sectionValues = (question: {
  readonly atEpochMs: number
  readonly series: readonly number[]
}): Query => lastAtOrBefore(question)
