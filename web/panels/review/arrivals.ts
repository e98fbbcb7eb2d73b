import type { Columns } from '../../engine/columns.ts'

/** Readings that came in together, later than a quarter of an hour after they were taken. */
export interface Arrival {
  readonly receivedEpochMs: number
  readonly count: number
  readonly firstAtEpochMs: number
  readonly lastAtEpochMs: number
}

/** Late arrivals in order of receipt, and those next to an instant: the last strictly before it, the first after it. */
export function arrivalsAround(
  columns: Pick<Columns, 'rows' | 'number'>,
  atEpochMs: number,
): { readonly all: readonly Arrival[]; readonly before: Arrival | null; readonly next: Arrival | null } {
  const [received, count, first, last] = ['received_ms', 'n', 'first_at_ms', 'last_at_ms'].map((name) =>
    columns.number(name),
  ) as [Float64Array, Float64Array, Float64Array, Float64Array]
  const all = Array.from({ length: columns.rows }, (_, row) => ({
    receivedEpochMs: received[row] as number,
    count: count[row] as number,
    firstAtEpochMs: first[row] as number,
    lastAtEpochMs: last[row] as number,
  }))
  return {
    all,
    before: all.findLast(({ receivedEpochMs }) => receivedEpochMs < atEpochMs) ?? null,
    next: all.find(({ receivedEpochMs }) => receivedEpochMs > atEpochMs) ?? null,
  }
}
