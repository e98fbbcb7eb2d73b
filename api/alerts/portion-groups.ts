import { watchedBy } from '#domain/levels/watched-by.ts'
import type { Asked } from './asked-group.ts'
import type { WatchedGroup } from './watch-plan.ts'

/** Readings up to so much older than the newest are worked out in one go with it, then the next older. */
const togetherMs = [86_400_000, 30 * 86_400_000, Number.POSITIVE_INFINITY]

/**
 * Groups asked for together, the newest first. Without this, one reading from last month would have everything of today worked out from there on.
 */
export function byAge(asked: readonly Asked[]): readonly (readonly Asked[])[] {
  const newest = Math.max(...asked.map(({ fromEpochMs }) => fromEpochMs))
  const classOf = ({ fromEpochMs }: Asked) => togetherMs.findIndex((age) => newest - fromEpochMs <= age)
  return togetherMs
    .map((_, at) => asked.filter((one) => classOf(one) === at))
    .filter((together) => together.length > 0)
}

/** Whether a level of the group watches for readings that stay away. */
export const hasSilence = ({ levels }: WatchedGroup): boolean =>
  levels.some(({ level }) => watchedBy(level) === 'silence')

/** Groups that have at most so many series together, one at least. */
export function portions(
  groups: readonly WatchedGroup[],
  atOnce: number,
): readonly (readonly WatchedGroup[])[] {
  const made: WatchedGroup[][] = []
  let count = Number.POSITIVE_INFINITY
  for (const group of groups) {
    if (count + group.series.length > atOnce) {
      made.push([])
      count = 0
    }
    made.at(-1)?.push(group)
    count += group.series.length
  }
  return made
}
