import type { Query } from '../engine/query.ts'
import { lastAtOrBefore } from './last-at-or-before.ts'

/**
 * Values of a string's points at each of several instants, the last at or before each.
 * Columns: which (index into `atEpochMs`), series, last_at_ms, value, quality, flags.
 */
export function depthProfile({
  atEpochMs,
  series,
  refineSeries = [],
}: {
  readonly atEpochMs: readonly number[]
  readonly series: readonly number[]
  /** As for `lastAtOrBefore`. */
  readonly refineSeries?: readonly number[]
}): Query {
  const parts = atEpochMs.map((instant) => lastAtOrBefore({ atEpochMs: instant, series, refineSeries }))
  const selects = parts.map((part, which) => `select ${which}::integer as which, * from (${part.sql})`)
  return {
    sql: `${selects.join(' union all ')} order by which, series`,
    params: parts.flatMap((part) => part.params),
    needs: parts.flatMap((part) => part.needs),
    ...(refineSeries.length > 0 ? { coarser: depthProfile({ atEpochMs, series }) } : {}),
  }
}
