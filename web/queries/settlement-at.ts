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
  refineSeries = [],
  sinceEpochMs = null,
}: SettlementQuestion): Query {
  const whole = settlementSql(
    sinceEpochMs === null
      ? lastAtOrBefore({ atEpochMs, series, refineSeries })
      : depthProfile({ atEpochMs: [atEpochMs, sinceEpochMs], series, refineSeries }),
    sinceEpochMs !== null,
  )
  return refineSeries.length === 0
    ? whole
    : { ...whole, coarser: settlementAt({ atEpochMs, series, sinceEpochMs }) }
}

export interface SettlementQuestion {
  readonly atEpochMs: number
  readonly series: readonly number[]
  /** As for `lastAtOrBefore`. */
  readonly refineSeries?: readonly number[]
  readonly sinceEpochMs?: number | null
}

const settlementSql = (last: Query, isChange: boolean): Query => ({
  ...last,
  sql: isChange
    ? `
      with both_instants as materialized (${last.sql})
      select a.series, a.last_at_ms, a.value, a.quality, b.last_at_ms as since_at_ms, b.value as since_value
      from both_instants a left join both_instants b on b.series = a.series and b.which = 1
      where a.which = 0 order by a.series`
    : `select *, null::timestamp as since_at_ms, null::double as since_value from (${last.sql}) order by series`,
})
