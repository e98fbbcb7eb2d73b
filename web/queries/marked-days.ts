import type { Query } from '../engine/query.ts'

const dayMs = 86_400_000

/** Days before the clock that are looked at. */
export const markedWithinDays = [7, 30] as const

/**
 * On how many days up to an instant the automatic checks marked something of a series, and what. A day is a UTC day; that
 * of the instant counts as far as it is published. Columns: within (days), read (days with a reading), marked (days), flags
 * (union of the marks). A day without readings was not looked at: it is no day without marks.
 */
export function markedDays({
  atEpochMs,
  series,
}: {
  readonly atEpochMs: number
  readonly series: number
}): Query {
  const day = Math.floor(atEpochMs / dayMs) * dayMs
  const untilEpochMs = day + dayMs
  const begins = markedWithinDays.map((days) => untilEpochMs - days * dayMs)
  return {
    sql: begins
      .map(
        (_, which) => `
      select ${markedWithinDays[which]}::integer as within, count(*)::integer as read,
        count(*) filter (where flags <> 0)::integer as marked, coalesce(bit_or(flags), 0)::integer as flags
      from day_rollup where series = ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?)`,
      )
      .join(' union all '),
    params: begins.flatMap((begin) => [series, begin, untilEpochMs]),
    needs: [{ resolution: 'day', fromEpochMs: Math.min(...begins), untilEpochMs: untilEpochMs - 1 }],
  }
}
