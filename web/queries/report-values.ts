import type { Query } from '../engine/query.ts'

/** Days, hours and readings lie in slices of UTC months. */
interface Stretch {
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
}

const needsOf = ({ fromEpochMs, untilEpochMs }: Stretch): Query['needs'] => [
  { resolution: 'raw', fromEpochMs, untilEpochMs: untilEpochMs - 1 },
]

/**
 * Every reading of a stretch. Columns: series, at_ms, value, received_after_s, quality; in order of series and time.
 * `series`: numbers; left out: every one.
 */
export function valuesOfStretch(stretch: Stretch & { readonly series?: readonly number[] }): Query {
  const { series, fromEpochMs, untilEpochMs } = stretch
  return {
    sql: `
      select series, epoch_ms("at")::double as at_ms, value, received_after_s::double as received_after_s,
        quality::double as quality
      from raw_values where ${series ? 'series in ? and ' : ''}"at" >= epoch_ms(?) and "at" < epoch_ms(?)
      order by series, at_ms`,
    params: [...(series ? [series] : []), fromEpochMs, untilEpochMs],
    needs: needsOf(stretch),
  }
}

/**
 * A sum of each series over a stretch that another set of values does not have (but by a chance of one in 10^15):
 * by it series that were told otherwise are found without their readings being fetched. Columns: series, sum.
 * Sums of one build of the engine mean nothing to another.
 */
export function sumsOfStretch(stretch: Stretch): Query {
  const { fromEpochMs, untilEpochMs } = stretch
  return {
    sql: `
      select series, (bit_xor(hash("at", value)) % 9007199254740881)::double as sum
      from raw_values where "at" >= epoch_ms(?) and "at" < epoch_ms(?) and value is not null
      group by series order by series`,
    params: [fromEpochMs, untilEpochMs],
    needs: needsOf(stretch),
  }
}

/** The first reading with a value of each series up to an instant. Columns: series, first_ms (start of its UTC day). */
export const firstDays = (untilEpochMs: number): Query => ({
  sql: `
    select series, min(epoch_ms("at"))::double as first_ms from day_rollup
    where n > 0 and "at" < epoch_ms(?) group by series order by series`,
  params: [untilEpochMs],
  needs: [{ resolution: 'day', fromEpochMs: Number.NEGATIVE_INFINITY, untilEpochMs: untilEpochMs - 1 }],
})
