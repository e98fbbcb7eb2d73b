import type { KnownEntry } from '../state/field-work.ts'

/**
 * When the latest memory file of a logger that the server has was taken by cable; null: it has none. Corrected by how
 * far the device's clock was ahead, unless the site has a present of its own, which no clock tells. What was brought
 * in at a desk is not known here.
 */
export function memoryTakenAtEpochMs(
  logger: string,
  known: readonly KnownEntry[],
  hasOwnPresent: boolean,
): number | null {
  const times = known.flatMap(({ entry: { body, clockAheadMs }, stored }) =>
    body.kind === 'memory-file' && body.logger === logger && stored?.effect?.outcome === 'taken'
      ? [body.takenAtEpochMs - (hasOwnPresent ? 0 : (clockAheadMs ?? 0))]
      : [],
  )
  return times.length === 0 ? null : Math.max(...times)
}
