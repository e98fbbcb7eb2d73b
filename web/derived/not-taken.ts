import type { KnownEntry } from '../state/field-work.ts'

/**
 * Whether the server has, but did not take, what an entry says: refused, not readable, or under the id of another.
 * Nothing may be concluded from it here. What only waits is not yet refused.
 */
export const isNotTaken = ({ own, stored }: Pick<KnownEntry, 'own' | 'stored'>): boolean =>
  stored?.effect?.outcome === 'refused' ||
  stored?.differs === true ||
  own?.delivery === 'unreadable' ||
  own?.delivery === 'differs'

/** How many of this device's own entries the server refused and no later entry follows. */
export interface RefusedWork {
  readonly readings: number
  readonly others: number
}

/** Counts what was refused; what is stuck in the outbox is counted there. */
export function refusedWork(known: readonly KnownEntry[]): RefusedWork {
  const followed = new Set(known.flatMap(({ entry }) => entry.follows.filter((id) => id !== entry.id)))
  const refused = known.filter(
    ({ entry, own, stored }) =>
      own !== null && stored?.effect?.outcome === 'refused' && !followed.has(entry.id),
  )
  const readings = refused.filter(({ entry }) => entry.body.kind === 'reading').length
  return { readings, others: refused.length - readings }
}
