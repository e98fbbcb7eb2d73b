import {
  type AskedStretch,
  hoursQuestion,
  knownParams,
  knownRows,
  readingsQuestion,
} from '#contract/review-questions.ts'
import type { Query } from '../engine/query.ts'

const needsOf = ({ fromEpochMs, asOfEpochMs }: AskedStretch): Query['needs'] => [
  { resolution: 'raw', fromEpochMs, untilEpochMs: asOfEpochMs },
]

/** Means by the hour of some series (`hoursQuestion`). */
export const knownHours = ({
  series,
  ...stretch
}: AskedStretch & { readonly series: readonly number[] }): Query => ({
  ...hoursQuestion(stretch, series),
  needs: needsOf(stretch),
})

/**
 * Readings of one series that were known at an instant. Columns: at_ms, value, received_after_s (0: within the quarter of
 * an hour), flags (marks of the automatic checks); in order of time.
 */
export const knownReadings = ({ series, ...stretch }: AskedStretch & { readonly series: number }): Query => ({
  sql: `
    select epoch_ms("at")::double as at_ms, value, coalesce(received_after_s, 0)::double as received_after_s,
      coalesce(flags, 0)::integer as flags
    from raw_values where ${knownRows} order by at_ms`,
  params: knownParams(stretch, [series]),
  needs: needsOf(stretch),
})

/** Readings of some series (`readingsQuestion`). */
export const knownReadingsOf = ({
  series,
  ...stretch
}: AskedStretch & { readonly series: readonly number[] }): Query => ({
  ...readingsQuestion(stretch, series),
  needs: needsOf(stretch),
})
