import type { Stretch } from '../levels/value-levels.ts'
import { watchedBy } from '../levels/watched-by.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { Episode, WatchedValue } from './episode.ts'
import { episodesOf } from './fold-episodes.ts'
import { beginSilence, type SilenceState, silencesOf } from './fold-silence.ts'
import { beginFold, type FoldState } from './fold-state.ts'

/** A level on values of series, which go by numbers here. Combinations watch other levels and stand in no group. */
export interface GroupedLevel {
  readonly level: TriggerLevel
  readonly series: number
  /** Difference: the series that is subtracted. */
  readonly against: number | null
  /** When it applies; of a change not before the instant that it is counted from. */
  readonly inForce: readonly Stretch[]
}

export type LevelState = FoldState | SilenceState

/** How far one level is folded. */
export interface LevelFold {
  /** Values before `settledUntilEpochMs` of the group. */
  readonly settled: LevelState
  /** All values. */
  readonly folded: LevelState
  /** Change: the reading that it is counted from; null: none is known of. */
  readonly start: WatchedValue | null
}

/** What was settled at an earlier instant. */
export interface Checkpoint {
  readonly settledUntilEpochMs: number
  /** In the order of levels. */
  readonly settled: readonly LevelState[]
}

/**
 * Levels that hang on the same series, and how far they are folded. The last values stay at hand, so that one that
 * comes late, again, or differently is folded in its place; what is older is settled, and earlier states are kept from which
 * older values can be folded again. Plain data, kept between starts.
 *
 * For readings as they arrive. Levels that are tried on the past are folded in one pass by `beginLevels`, which takes
 * combinations too and keeps nothing; the two share the folding of a value, and the tests hold this one against that.
 */
export interface LevelGroup {
  readonly settledUntilEpochMs: number
  /** Oldest first, the further apart the older they are. */
  readonly checkpoints: readonly Checkpoint[]
  /** Instant of the last value folded. */
  readonly foldedEpochMs: number
  readonly folds: readonly LevelFold[]
  /** Numbers of the series; `tails` and `lastKnown` are in their order. */
  readonly series: readonly number[]
  /** Every value from the settled instant on, and before it as far as windows of levels reach back. */
  readonly tails: readonly (readonly WatchedValue[])[]
  /** The last reading with a value; null: there was none. */
  readonly lastKnown: readonly (WatchedValue | null)[]
}

/** Before every reading; a number that JSON keeps. */
export const beginningEpochMs = Number.MIN_SAFE_INTEGER

/** A group of which nothing has been folded yet. */
export function beginGroup(levels: readonly GroupedLevel[]): LevelGroup {
  const series = [
    ...new Set(levels.flatMap(({ series, against }) => (against === null ? [series] : [series, against]))),
  ]
  return {
    settledUntilEpochMs: beginningEpochMs,
    checkpoints: [],
    foldedEpochMs: beginningEpochMs,
    folds: levels.map(({ level, inForce }) => {
      const state = isSilence(level) ? beginSilence(level, inForce) : beginFold(level, inForce)
      return { settled: state, folded: state, start: null }
    }),
    series,
    tails: series.map(() => []),
    lastKnown: series.map(() => null),
  }
}

/**
 * Episodes of the level at a place in its group, up to an instant. One that only a reading stamped later than that leaves,
 * by a logger whose clock runs fast, is not left yet: readings of before it may still come.
 */
export function episodesInGroup(group: LevelGroup, at: number, asOfEpochMs: number): readonly Episode[] {
  const { folded } = group.folds[at] as LevelFold
  if (isSilenceState(folded)) return silencesOf(folded, asOfEpochMs)
  const episodes = episodesOf(folded, asOfEpochMs)
  const last = episodes.at(-1)
  return last && (last.leftAtEpochMs ?? asOfEpochMs) > asOfEpochMs
    ? [...episodes.slice(0, -1), { ...last, leftAtEpochMs: null, leftBecause: null }]
    : episodes
}

/** Whether a level is reached by readings that stay away. */
export const isSilence = (level: TriggerLevel): boolean => watchedBy(level) === 'silence'

/** Whether a state is that of such a level. */
export const isSilenceState = (state: LevelState): state is SilenceState => 'allowedMinutes' in state
