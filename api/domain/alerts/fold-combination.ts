import type { Stretch } from '../levels/value-levels.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { Episode } from './episode.ts'
import { episodesOf, foldOn } from './fold-episodes.ts'
import { beginFold } from './fold-state.ts'

/**
 * Episodes of a combination up to an instant: as long as enough of its members are held at once. Give the episodes of each member, which
 * may be combinations themselves. The value of a combination is how many must be; its peak is how many were.
 * Known is when the last of those members that made it was known.
 */
export function foldCombination(
  level: TriggerLevel,
  members: readonly (readonly Episode[])[],
  asOfEpochMs: number,
  inForce: readonly Stretch[] = [{ fromEpochMs: level.validFrom, untilEpochMs: level.validUntil }],
): readonly Episode[] {
  const held = members.flat().filter(({ heldAtEpochMs }) => heldAtEpochMs !== null)
  const instants = new Set([
    ...inForce.map(({ fromEpochMs }) => fromEpochMs),
    ...held.flatMap(({ heldAtEpochMs, leftAtEpochMs }) => [
      ...(heldAtEpochMs === null ? [] : [heldAtEpochMs]),
      ...(leftAtEpochMs === null ? [] : [leftAtEpochMs]),
    ]),
  ])
  const counts = [...instants]
    .filter((atEpochMs) => atEpochMs <= asOfEpochMs)
    .toSorted((one, other) => one - other)
    .map((atEpochMs) => {
      const standing = held.filter((one) => isHeldAt(one, atEpochMs))
      const known = standing.map(({ knownAtEpochMs }) => knownAtEpochMs)
      return {
        atEpochMs,
        receivedAtEpochMs: known.length === 0 ? atEpochMs : Math.max(...known),
        value: standing.length,
      }
    })
  const alone = { ...level, direction: 'above' as const, hysteresisShare: null, holdReadings: null }
  return episodesOf(
    counts.reduce(foldOn, beginFold({ ...alone, holdMinutes: null, longestGapMinutes: null }, inForce)),
    asOfEpochMs,
  )
}

const isHeldAt = ({ heldAtEpochMs, leftAtEpochMs }: Episode, atEpochMs: number): boolean =>
  heldAtEpochMs !== null &&
  heldAtEpochMs <= atEpochMs &&
  (leftAtEpochMs === null || atEpochMs < leftAtEpochMs)
