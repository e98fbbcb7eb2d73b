import type { TriedLevel } from '#contract/level-proposals.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { beginLevels, seriesNeeded, type ValuesBySeries } from '#domain/alerts/fold-levels.ts'
import type { ProposedChange } from '#domain/levels/level-change.ts'
import { membersOf, watchedBy } from '#domain/levels/watched-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

/** Hands in the values of series by their ids, part by part in order of time, all series of a part at once. */
export type ValuesOf = (request: {
  readonly site: string
  readonly model: SiteModel
  readonly series: readonly string[]
  /** Inclusive. */
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  readonly onValues: (values: ValuesBySeries) => void
}) => Promise<void>

export interface LevelsTried {
  readonly proposed: readonly TriedLevel[]
  readonly present: readonly TriedLevel[]
  /** Episodes of the levels that are replaced or ended, by id. */
  readonly episodes: ReadonlyMap<string, readonly Episode[]>
}

const mostShown = 20

/**
 * Folds proposed levels, and those that they replace or end, over past values. A level that begins later than the
 * present is tried as if it had applied all the time, in its stage; one that begins earlier, from its beginning.
 */
export async function tryLevels(given: {
  readonly valuesOf: ValuesOf
  readonly model: SiteModel
  readonly changes: readonly ProposedChange[]
  readonly fromEpochMs: number
  readonly presentEpochMs: number
}): Promise<LevelsTried> {
  const { model, changes, fromEpochMs, presentEpochMs } = given
  const proposed = changes.flatMap((change) =>
    change.kind === 'end' ? [] : [tried(change.level, fromEpochMs, presentEpochMs)],
  )
  const present = changes.flatMap(({ before }) => (before === null ? [] : [before]))
  const levels = withMembers([...proposed, ...present], model.triggerLevels)
  const folding = beginLevels(levels, model.stages)
  await given.valuesOf({
    site: model.facts.id,
    model,
    series: [...seriesNeeded(levels)],
    fromEpochMs,
    untilEpochMs: presentEpochMs,
    onValues: folding.take,
  })
  const episodes = folding.episodes(presentEpochMs)
  const told = (level: TriggerLevel): TriedLevel => {
    const own = (episodes.get(level.id) ?? []).filter(
      ({ leftAtEpochMs }) => leftAtEpochMs === null || leftAtEpochMs >= fromEpochMs,
    )
    const raised = own.filter(({ heldAtEpochMs }) => heldAtEpochMs !== null).length
    return {
      level: level.id,
      series: level.series,
      watches: watchedBy(level),
      fromEpochMs: Math.max(fromEpochMs, level.validFrom),
      untilEpochMs: Math.min(presentEpochMs, level.validUntil ?? presentEpochMs),
      raised,
      crossedOnly: own.length - raised,
      episodes: own.slice(-mostShown).toReversed(),
    }
  }
  return { proposed: proposed.map(told), present: present.map(told), episodes }
}

const tried = (
  level: Omit<TriggerLevel, 'author' | 'approver'>,
  fromEpochMs: number,
  presentEpochMs: number,
): TriggerLevel => ({
  ...level,
  author: '',
  approver: '',
  validFrom: level.validFrom >= presentEpochMs ? fromEpochMs : level.validFrom,
})

/** Levels and those that combinations among them are made of; of two by one name the first counts. */
function withMembers(
  levels: readonly TriggerLevel[],
  others: readonly TriggerLevel[],
): readonly TriggerLevel[] {
  const known = new Map<string, TriggerLevel>()
  const next = [...levels]
  for (let level = next.shift(); level !== undefined; level = next.shift()) {
    if (known.has(level.id)) continue
    known.set(level.id, level)
    const members = new Set(membersOf(level))
    if (level.watches === 'combination')
      next.push(...[...levels, ...others].filter(({ id }) => members.has(id) && !known.has(id)))
  }
  return [...known.values()]
}
