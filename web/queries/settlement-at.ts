import type { Query } from '../engine/query.ts'
import { depthProfile } from './depth-profile.ts'
import { lastAtOrBefore } from './last-at-or-before.ts'

/**
 * Settlements at the site clock, or their change since another instant.
 * Columns: series, last_at_ms, value, quality, since_at_ms, since_value; the last two are null without
 * `sinceEpochMs`, or where the series had no reading by then. The change is value − since_value.
 */
export function settlementAt({
  atEpochMs,
  series,
  sinceEpochMs = null,
}: {
  readonly atEpochMs: number
  readonly series: readonly number[]
  readonly sinceEpochMs?: number | null
}): Query {
  if (sinceEpochMs === null) {
    const now = lastAtOrBefore({ atEpochMs, series })
    return {
      ...now,
      sql: `select *, null::timestamp as since_at_ms, null::double as since_value from (${now.sql}) order by series`,
    }
  }
  const both = depthProfile({ atEpochMs: [atEpochMs, sinceEpochMs], series })
  return {
    ...both,
    sql: `
      with both_instants as materialized (${both.sql})
      select a.series, a.last_at_ms, a.value, a.quality, b.last_at_ms as since_at_ms, b.value as since_value
      from both_instants a left join both_instants b on b.series = a.series and b.which = 1
      where a.which = 0 order by a.series`,
  }
}
