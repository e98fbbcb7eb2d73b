import { earliestReceiptMsSql, knownBySql } from '#domain/receipt/known-by.ts'
import type { Parameter } from './write-literals.ts'

/** What a review asks of raw slices (`raw_values`: all of them as one view); page and server ask the same. */
export interface ReviewQuestion {
  readonly sql: string
  readonly params: readonly Parameter[]
}

export interface AskedStretch {
  readonly fromEpochMs: number
  /** Readings received later are left out: they were not known then. */
  readonly asOfEpochMs: number
}

/** Readings with a value of the series of the first parameter, taken in a stretch and received by its end. */
export const knownRows = `series in ? and "at" >= epoch_ms(?) and "at" < epoch_ms(?) and value is not null
  and ${knownBySql(earliestReceiptMsSql, '?')}`

export const knownParams = (
  { fromEpochMs, asOfEpochMs }: AskedStretch,
  series: readonly number[],
): readonly Parameter[] => [series, fromEpochMs, asOfEpochMs, asOfEpochMs]

/**
 * Means by the hour of readings that were known at an instant. Columns: series, at_ms (mean instant of the readings),
 * value; in order of series and time. Hours without a value are left out.
 */
export const hoursQuestion = (stretch: AskedStretch, series: readonly number[]): ReviewQuestion => ({
  sql: `
    select series, avg(epoch_ms("at"))::double as at_ms, avg(value) as value
    from raw_values where ${knownRows}
    group by series, epoch_ms("at") // 3600000 order by series, at_ms`,
  params: knownParams(stretch, series),
})

/** Readings that were known at an instant. Columns: series, at_ms, value, received_after_s (0: within the quarter of an hour); in order of series and time. */
export const readingsQuestion = (stretch: AskedStretch, series: readonly number[]): ReviewQuestion => ({
  sql: `
    select series, epoch_ms("at")::double as at_ms, value, coalesce(received_after_s, 0)::double as received_after_s
    from raw_values where ${knownRows} order by series, at_ms`,
  params: knownParams(stretch, series),
})
