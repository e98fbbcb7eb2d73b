import type { HistoryTrace } from './history-props.ts'

/** What fell in each row: the readings of a bucket are amounts and add up. */
export const amounts = (trace: HistoryTrace): Float64Array =>
  trace.value.map((mean, row) => mean * (trace.count[row] ?? 1))
