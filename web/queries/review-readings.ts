import { earliestReceiptMsSql, knownBySql } from '#domain/receipt/known-by.ts'
import type { Query } from '../engine/query.ts'

interface Stretch {
  readonly fromEpochMs: number
  /** Readings received later are left out: they were not known then. */
  readonly asOfEpochMs: number
}

const known = `series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?) and value is not null
  and ${knownBySql(earliestReceiptMsSql, '?')}`

const needsOf = ({ fromEpochMs, asOfEpochMs }: Stretch): Query['needs'] => [
  { resolution: 'raw', fromEpochMs, untilEpochMs: asOfEpochMs },
]

/**
 * Means by the hour of readings that were known at an instant. Columns: series, at_ms (mean instant of the readings),
 * value; in order of series and time. Hours without a value are left out.
 */
export function knownHours(stretch: Stretch & { readonly series: readonly number[] }): Query {
  const { series, fromEpochMs, asOfEpochMs } = stretch
  return {
    sql: `
      select series, avg(epoch_ms("at"))::double as at_ms, avg(value) as value
      from raw_values where ${known}
      group by series, epoch_ms("at") // 3600000 order by series, at_ms`,
    params: [series, fromEpochMs, asOfEpochMs, asOfEpochMs],
    needs: needsOf(stretch),
  }
}

/**
 * Readings of one series that were known at an instant. Columns: at_ms, value, received_after_s (0: within the quarter of
 * an hour), flags (marks of the automatic checks); in order of time.
 */
export function knownReadings(stretch: Stretch & { readonly series: number }): Query {
  const { series, fromEpochMs, asOfEpochMs } = stretch
  return {
    sql: `
      select epoch_ms("at")::double as at_ms, value, coalesce(received_after_s, 0)::double as received_after_s,
        coalesce(flags, 0)::integer as flags
      from raw_values where ${known} order by at_ms`,
    params: [[series], fromEpochMs, asOfEpochMs, asOfEpochMs],
    needs: needsOf(stretch),
  }
}

/**
 * Readings of some series that were known at an instant. Columns: series, at_ms, value, received_after_s; in order
 * of series and time.
 */
export function knownReadingsOf(stretch: Stretch & { readonly series: readonly number[] }): Query {
  const { series, fromEpochMs, asOfEpochMs } = stretch
  return {
    sql: `
      select series, epoch_ms("at")::double as at_ms, value, coalesce(received_after_s, 0)::double as received_after_s
      from raw_values where ${known} order by series, at_ms`,
    params: [series, fromEpochMs, asOfEpochMs, asOfEpochMs],
    needs: needsOf(stretch),
  }
}
