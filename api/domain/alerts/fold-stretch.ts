import { watchedBy } from '../levels/watched-by.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { WatchedValue } from './episode.ts'
import { foldOn } from './fold-episodes.ts'
import { silenceOn } from './fold-silence.ts'
import type { FoldState } from './fold-state.ts'
import { type GroupedLevel, isSilenceState, type LevelGroup, type LevelState } from './level-group.ts'
import { firstSince, valuesBefore, valuesSince } from './values-by-time.ts'
import { watchedValues } from './watched-values.ts'

/** Folds what a level watches in [fromEpochMs, untilEpochMs) onto a state. */
export function foldStretch(
  { level, series, against }: GroupedLevel,
  state: LevelState,
  start: WatchedValue | null,
  group: Pick<LevelGroup, 'series' | 'tails'>,
  fromEpochMs: number,
  untilEpochMs: number,
): LevelState {
  const all = tailOf(group.series, group.tails, series)
  if (isSilenceState(state))
    return valuesBefore(valuesSince(all, fromEpochMs), untilEpochMs)
      .filter(({ value }) => value !== null)
      .toSorted(
        (one, other) => one.receivedAtEpochMs - other.receivedAtEpochMs || one.atEpochMs - other.atEpochMs,
      )
      .reduce(silenceOn, state)
  if (watchedBy(level) === 'value') return foldBetween(state, all, fromEpochMs, untilEpochMs)
  const around = fromEpochMs - windowOf(level)
  const own = valuesSince(all, around)
  const others = against === null ? [] : valuesSince(tailOf(group.series, group.tails, against), around)
  const isMissing = start !== null && start.atEpochMs < (own[0]?.atEpochMs ?? Number.POSITIVE_INFINITY)
  const watched = watchedValues(level, isMissing ? [start, ...own] : own, others, fromEpochMs)
  return foldBetween(state, watched, fromEpochMs, untilEpochMs)
}

function foldBetween(
  state: FoldState,
  values: readonly WatchedValue[],
  fromEpochMs: number,
  untilEpochMs: number,
): FoldState {
  let folded = state
  for (let at = firstSince(values, fromEpochMs); at < values.length; at++) {
    const value = values[at] as WatchedValue
    if (value.atEpochMs >= untilEpochMs) break
    folded = foldOn(folded, value)
  }
  return folded
}

/** The longest window that a level looks back over, milliseconds; 0: none looks back. */
export const longestWindowMs = (levels: readonly GroupedLevel[]): number =>
  Math.max(0, ...levels.map(({ level }) => windowOf(level)))

const windowOf = ({ windowMinutes }: TriggerLevel): number => (windowMinutes ?? 0) * 60_000

/** Values at hand of a series of the group; none where it is of another. */
export const tailOf = (
  series: readonly number[],
  tails: LevelGroup['tails'],
  of: number,
): readonly WatchedValue[] => tails[series.indexOf(of)] ?? []
