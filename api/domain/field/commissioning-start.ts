import type { FieldEntry } from './field-entry.ts'

/**
 * When a commissioning began, by the server's clock: when its first step was written, less how far the device was then
 * ahead of the server. `clockAheadMs` stands in where a device had not spoken with the server yet. Null: not begun.
 */
export function commissioningStart(
  entries: readonly Pick<FieldEntry, 'body' | 'writtenAtEpochMs' | 'clockAheadMs'>[],
  commissioning: string,
  clockAheadMs: number | null,
): number | null {
  const times = entries.flatMap((entry) =>
    entry.body.kind === 'commissioning-step' && entry.body.commissioning === commissioning
      ? [entry.writtenAtEpochMs - (entry.clockAheadMs ?? clockAheadMs ?? 0)]
      : [],
  )
  return times.length === 0 ? null : Math.min(...times)
}
