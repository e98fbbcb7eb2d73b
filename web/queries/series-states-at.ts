import type { Query } from '../engine/query.ts'
import { lastAtOrBefore } from './last-at-or-before.ts'

/**
 * What every series last said at the site clock, for colouring the whole plan.
 * Columns: series, last_at_ms, value, quality, flags. A series without a row has no reading yet.
 */
export const seriesStatesAt = (question: {
  readonly atEpochMs: number
  readonly refineSeries?: readonly number[]
}): Query => lastAtOrBefore(question)
