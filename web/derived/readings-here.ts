import type { ReadingBody } from '#domain/field/field-bodies.ts'
import type { KnownEntry } from '../state/field-work.ts'
import { isNotTaken } from './not-taken.ts'

/** Readings by hand that this device knows of and that the server took or has yet to see, in the order given. */
export const readingsHere = (known: readonly KnownEntry[]): readonly ReadingBody[] =>
  known.flatMap((one) => (one.entry.body.kind === 'reading' && !isNotTaken(one) ? [one.entry.body] : []))

/** Instant of the latest of them, by sensor: the states may not have it yet. */
export function latestReadingsHere(known: readonly KnownEntry[]): ReadonlyMap<string, number> {
  const latest = new Map<string, number>()
  for (const { sensor, atEpochMs } of readingsHere(known))
    latest.set(sensor, Math.max(atEpochMs, latest.get(sensor) ?? Number.NEGATIVE_INFINITY))
  return latest
}
