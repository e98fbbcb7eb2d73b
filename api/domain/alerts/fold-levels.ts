import { inForceOf, type Stretch } from '../levels/value-levels.ts'
import { membersOf, watchedBy } from '../levels/watched-by.ts'
import type { Stage, TriggerLevel } from '../site/tables.ts'
import type { Episode, WatchedValue } from './episode.ts'
import { foldCombination } from './fold-combination.ts'
import { episodesOf, foldOn } from './fold-episodes.ts'
import { foldSilence, type Receipt } from './fold-silence.ts'
import { beginFold, type FoldState } from './fold-state.ts'
import { watchedValues } from './watched-values.ts'

/** Values by series id, each ordered by their instants. */
export type ValuesBySeries = ReadonlyMap<string, readonly WatchedValue[]>

/** Levels that are folded over values handed in part by part, in order of time. */
export interface LevelFolding {
  /** One part, later than those before, of all series at once. */
  take(values: ValuesBySeries): void
  /** Episodes of every level up to an instant, by its id. */
  episodes(asOfEpochMs: number): ReadonlyMap<string, readonly Episode[]>
}

interface Folding {
  state: FoldState
  /** Values that a later one may still be told with: a window of rates, the start of a change. */
  own: readonly WatchedValue[]
  against: readonly WatchedValue[]
}

/**
 * Begins to fold levels, of which nothing but the last values that are needed again is kept. A combination counts
 * members among the levels given; one that is not there is never held.
 *
 * For values of the past, which are all there: one pass in order, with nothing kept for later. What arrives late, twice or
 * differently is folded by `LevelGroup`, whose tests hold it against this plainer way.
 */
export function beginLevels(
  levels: readonly TriggerLevel[],
  stages: readonly Pick<Stage, 'id' | 'startsAt' | 'endsAt'>[],
): LevelFolding {
  const stretches = new Map(levels.map((level) => [level.id, inForceOf(level, stages)]))
  const inForce = (level: TriggerLevel): readonly Stretch[] => {
    const stretch = stretches.get(level.id)
    return stretch ? [stretch] : []
  }
  const foldings = new Map<string, Folding>()
  const receipts = new Map<string, Receipt[]>()

  return {
    take(values) {
      for (const level of levels) {
        const own = values.get(level.series) ?? []
        const kind = watchedBy(level)
        if (kind === 'combination' || stretches.get(level.id) === null) continue
        if (kind === 'silence') {
          const known = receipts.get(level.series) ?? []
          // A reading without a value tells no more than none.
          if (known.length === 0 || (known.at(-1)?.atEpochMs ?? 0) < (own[0]?.atEpochMs ?? 0))
            receipts.set(level.series, known.concat(own.filter(({ value }) => value !== null)))
          continue
        }
        const before = foldings.get(level.id) ?? {
          state: beginFold(level, inForce(level)),
          own: [],
          against: [],
        }
        foldings.set(level.id, foldPart(level, before, own, values.get(level.against ?? '') ?? []))
      }
    },

    episodes(asOfEpochMs) {
      const byId = new Map(levels.map((level) => [level.id, level]))
      const found = new Map<string, readonly Episode[]>()
      const of = (level: TriggerLevel): readonly Episode[] => {
        const known = found.get(level.id)
        if (known) return known
        // Stands in for itself while it is folded, so that a cycle, which the checks of a site refuse, ends.
        found.set(level.id, [])
        const episodes = fold(level)
        found.set(level.id, episodes)
        return episodes
      }
      const fold = (level: TriggerLevel): readonly Episode[] => {
        if (watchedBy(level) === 'silence')
          return foldSilence(level, receipts.get(level.series) ?? [], asOfEpochMs, inForce(level))
        if (watchedBy(level) === 'combination') {
          const members = membersOf(level).flatMap((id) => byId.get(id) ?? [])
          return foldCombination(level, members.map(of), asOfEpochMs, inForce(level))
        }
        const folding = foldings.get(level.id)
        return folding ? episodesOf(folding.state, asOfEpochMs) : []
      }
      for (const level of levels) of(level)
      return found
    },
  }
}

/** Ids of the series whose values levels need; those of a combination are its members' own. */
export const seriesNeeded = (levels: readonly TriggerLevel[]): ReadonlySet<string> =>
  new Set(
    levels.flatMap((level) => {
      const kind = watchedBy(level)
      if (kind === 'combination') return []
      return kind === 'difference' && level.against != null ? [level.series, level.against] : [level.series]
    }),
  )

function foldPart(
  level: TriggerLevel,
  before: Folding,
  ownPart: readonly WatchedValue[],
  againstPart: readonly WatchedValue[],
): Folding {
  if (watchedBy(level) === 'value') return { ...before, state: ownPart.reduce(foldOn, before.state) }
  const own = before.own.concat(ownPart)
  const against = before.against.concat(againstPart)
  const fresh = watchedValues(level, own, against).slice(before.own.length)
  return {
    state: fresh.reduce(foldOn, before.state),
    own: stillNeeded(level, own),
    against: stillNeeded(level, against),
  }
}

/** Of the values so far, those with which later ones may be told. */
function stillNeeded(level: TriggerLevel, values: readonly WatchedValue[]): readonly WatchedValue[] {
  const last = values.at(-1)
  if (last === undefined) return []
  if (watchedBy(level) === 'change') {
    const since = level.changeSince ?? Number.NEGATIVE_INFINITY
    const start = values.findLast(({ atEpochMs, value }) => atEpochMs <= since && value !== null)
    return start === undefined ? [] : [start]
  }
  const from = last.atEpochMs - (level.windowMinutes ?? 0) * 60_000
  const kept = values.findIndex(({ atEpochMs }) => atEpochMs >= from)
  const oldest = values.findLastIndex(({ value }, at) => at < kept && value !== null)
  // The last value before the window too: the other series may be read less often than this one.
  return values.slice(oldest < 0 ? kept : oldest)
}
