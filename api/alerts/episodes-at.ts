import type { Episode } from '#domain/alerts/episode.ts'
import { foldCombination } from '#domain/alerts/fold-combination.ts'
import { episodesInGroup, type LevelGroup } from '#domain/alerts/level-group.ts'
import { inForceOf } from '#domain/levels/value-levels.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { WatchPlan } from './watch-plan.ts'

/**
 * Every episode of each level by its id, as the readings that are folded make them up to an instant. What only the clock
 * brought after it (a silence that began, a level that ended) is not among them.
 */
export function episodesAt(
  { groups, combinations, levels, model }: WatchPlan,
  folded: ReadonlyMap<string, LevelGroup>,
  asOfEpochMs: number,
): ReadonlyMap<string, readonly Episode[]> {
  const episodes = new Map<string, readonly Episode[]>()
  for (const group of groups) {
    const state = folded.get(group.key)
    if (state === undefined) continue
    for (const [at, { level }] of group.levels.entries())
      episodes.set(level.id, episodesInGroup(state, at, asOfEpochMs))
  }
  const combine = (level: TriggerLevel): readonly Episode[] => {
    const known = episodes.get(level.id)
    if (known || watchedBy(level) !== 'combination') return known ?? []
    // Where records name each other in a ring, it is closed here.
    episodes.set(level.id, [])
    const members = membersOf(level).flatMap((id) => levels.get(id) ?? [])
    const stretch = inForceOf(level, model.stages)
    const made = stretch === null ? [] : foldCombination(level, members.map(combine), asOfEpochMs, [stretch])
    episodes.set(level.id, made)
    return made
  }
  for (const level of combinations) combine(level)
  return episodes
}
