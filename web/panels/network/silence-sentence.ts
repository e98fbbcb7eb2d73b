import type { SilentChannels } from '../../derived/network-condition.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'

/** Why critical channels have no current value and since when, and what to do about it; whole sentences. */
export function silenceSentence(
  { logger, reason, sinceEpochMs }: Pick<SilentChannels, 'logger' | 'reason' | 'sinceEpochMs'>,
  atEpochMs: number,
  zone: string,
): { readonly says: string; readonly toDo: string } {
  const since = sinceEpochMs === null ? null : formatShortInstant(sinceEpochMs, zone)
  if (reason === 'without-value')
    return {
      says: `reads, but gives no value; last read ${since ?? 'at an unknown time'}.`,
      toDo: 'Read it by hand now; its record shows how its last reading was reduced.',
    }
  return {
    says:
      sinceEpochMs === null
        ? 'no value was ever received from at least one.'
        : `silent for ${formatAge(atEpochMs - sinceEpochMs)}, since ${since}.`,
    toDo: `Read it by hand now; what to do at ${logger} stands below.`,
  }
}
