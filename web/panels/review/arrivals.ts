import type { Columns } from '../../engine/columns.ts'

/** Readings that came in together, later than a quarter of an hour after they were taken. */
export interface Arrival {
  readonly receivedEpochMs: number
  /** The next whole hour, at which the evidence knows of it: it is weighed as known by the hour. */
  readonly weighedEpochMs: number
  readonly count: number
  readonly firstAtEpochMs: number
  readonly lastAtEpochMs: number
}

const hourMs = 3_600_000

/** Late arrivals in order of receipt, and those next to an instant by the hours at which they are weighed. */
export function arrivalsAround(
  columns: Pick<Columns, 'rows' | 'number'>,
  atEpochMs: number,
): { readonly all: readonly Arrival[]; readonly before: Arrival | null; readonly next: Arrival | null } {
  const [received, count, first, last] = ['received_ms', 'n', 'first_at_ms', 'last_at_ms'].map((name) =>
    columns.number(name),
  ) as [Float64Array, Float64Array, Float64Array, Float64Array]
  const all = Array.from({ length: columns.rows }, (_, row) => ({
    receivedEpochMs: received[row] as number,
    weighedEpochMs: Math.ceil((received[row] as number) / hourMs) * hourMs,
    count: count[row] as number,
    firstAtEpochMs: first[row] as number,
    lastAtEpochMs: last[row] as number,
  }))
  return {
    all,
    before: all.findLast(({ weighedEpochMs }) => weighedEpochMs < atEpochMs) ?? null,
    next: all.find(({ weighedEpochMs }) => weighedEpochMs > atEpochMs) ?? null,
  }
}
