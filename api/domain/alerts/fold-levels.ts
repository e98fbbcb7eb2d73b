import { inForceOf, type Stretch } from '../levels/value-levels.ts'
import { membersOf, watchedBy } from '../levels/watched-by.ts'
import type { Stage, TriggerLevel } from '../site/tables.ts'
import { beginFold, type Episode, episodesOf, foldOn, type WatchedValue } from './episode.ts'
import { foldCombination } from './fold-combination.ts'
import { foldSilence } from './fold-silence.ts'
import { watchedValues } from './watched-values.ts'

/**
 * Episodes of every level up to an instant, by its id, from the values of the series that they watch, by series id and
 * ordered by their instants. A combination counts members among the levels given; one that is not there is never held.
 */
export function foldLevels(given: {
  readonly levels: readonly TriggerLevel[]
  readonly stages: readonly Pick<Stage, 'id' | 'startsAt' | 'endsAt'>[]
  readonly values: ReadonlyMap<string, readonly WatchedValue[]>
  readonly asOfEpochMs: number
}): ReadonlyMap<string, readonly Episode[]> {
  const { values, asOfEpochMs } = given
  const levels = new Map(given.levels.map((level) => [level.id, level]))
  const folded = new Map<string, readonly Episode[]>()
  const fold = (level: TriggerLevel): readonly Episode[] => {
    const known = folded.get(level.id)
    if (known) return known
    // Stands in for itself while it is folded, so that a cycle, which the checks of a site refuse, ends.
    folded.set(level.id, [])
    const stretch = inForceOf(level, given.stages)
    const episodes = stretch === null ? [] : foldOne(level, [stretch])
    folded.set(level.id, episodes)
    return episodes
  }
  const foldOne = (level: TriggerLevel, inForce: readonly Stretch[]): readonly Episode[] => {
    const own = values.get(level.series) ?? []
    switch (watchedBy(level)) {
      case 'silence':
        return foldSilence(level, own, asOfEpochMs, inForce)
      case 'combination': {
        const members = membersOf(level).flatMap((id) => levels.get(id) ?? [])
        return foldCombination(level, members.map(fold), asOfEpochMs, inForce)
      }
      default: {
        const watched = watchedValues(level, own, values.get(level.against ?? '') ?? [])
        return episodesOf(watched.reduce(foldOn, beginFold(level, inForce)), asOfEpochMs)
      }
    }
  }
  for (const level of given.levels) fold(level)
  return folded
}

/** Ids of the series whose values a level needs to be folded; those of a combination are its members' own. */
export const seriesNeeded = (level: TriggerLevel): readonly string[] => {
  if (watchedBy(level) === 'combination') return []
  return watchedBy(level) === 'difference' && level.against != null
    ? [level.series, level.against]
    : [level.series]
}
