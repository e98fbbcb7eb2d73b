import type { WatchedValue } from './episode.ts'

/** Index of the first value at or after an instant; looked for from the end, where it nearly always is. */
export function firstSince(values: readonly WatchedValue[], epochMs: number): number {
  let at = values.length
  while (at > 0 && (values[at - 1] as WatchedValue).atEpochMs >= epochMs) at--
  return at
}

/** Values at or after an instant. */
export const valuesSince = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(firstSince(values, epochMs))

/** Values before an instant. */
export const valuesBefore = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(0, firstSince(values, epochMs))
