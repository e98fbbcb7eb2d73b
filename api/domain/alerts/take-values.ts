import { assert } from '../assert.ts'
import type { WatchedValue } from './episode.ts'
import { foldStretch, tailOf } from './fold-stretch.ts'
import type { GroupedLevel, LevelFold, LevelGroup } from './level-group.ts'
import { valuesBefore } from './values-by-time.ts'

/** Whether values from an instant on can be taken in as the group is. */
export const reachesBackTo = (group: LevelGroup, fromEpochMs: number): boolean =>
  fromEpochMs >= group.settledUntilEpochMs

/**
 * The group with these values in place of all that it had of these series from an instant on. `given` are all values of
 * each from there on, in order of time; a series that is left out stays as it is. Taking the same values twice changes nothing.
 * Null: a receipt came before others that are settled; fold anew.
 */
export function takeValues(
  levels: readonly GroupedLevel[],
  group: LevelGroup,
  given: ReadonlyMap<number, readonly WatchedValue[]>,
  fromEpochMs: number,
): LevelGroup | null {
  const isFresh = group.tails.every((values) => values.length === 0)
  assert(isFresh || reachesBackTo(group, fromEpochMs), `values from ${fromEpochMs} are settled`)
  const own = group.series.map((series) => given.get(series))
  const tails = group.tails.map((values, at) => inPlace(values, own[at], fromEpochMs))
  const lastKnown = group.lastKnown.map((known, at) => lastWithValue(own[at]) ?? known)
  const { series } = group
  const foldedEpochMs = tails.reduce(
    (latest, values) => Math.max(latest, values.at(-1)?.atEpochMs ?? latest),
    group.foldedEpochMs,
  )
  const onward =
    fromEpochMs > group.foldedEpochMs &&
    levels.every(({ level }) => level.changeSince == null || fromEpochMs > level.changeSince)
  const folds: LevelFold[] = []
  for (const [at, level] of levels.entries()) {
    const before = group.folds[at] as LevelFold
    const start = startOf(level, before, tailOf(series, tails, level.series))
    const anew = () =>
      foldStretch(level, before.settled, start, { series, tails }, group.settledUntilEpochMs, endless)
    const folded = onward
      ? foldStretch(level, before.folded, start, { series, tails }, fromEpochMs, endless)
      : anew()
    const inOrder = folded.refoldFromEpochMs !== null && onward ? anew() : folded
    if (inOrder.refoldFromEpochMs !== null) return null
    folds.push({ settled: before.settled, folded: inOrder, start })
  }
  return { ...group, tails, lastKnown, foldedEpochMs, folds }
}

/** Change: the reading that it is counted from, from what is at hand or known before. */
function startOf(
  { level }: GroupedLevel,
  { start }: LevelFold,
  values: readonly WatchedValue[],
): WatchedValue | null {
  const { changeSince } = level
  if (changeSince == null) return null
  return values.findLast(({ atEpochMs, value }) => atEpochMs <= changeSince && value !== null) ?? start
}

/** Values with those given in place of all that there were from an instant on; as they are where none were asked for. */
const inPlace = (
  values: readonly WatchedValue[],
  given: readonly WatchedValue[] | undefined,
  fromEpochMs: number,
): readonly WatchedValue[] =>
  given === undefined ? values : [...valuesBefore(values, fromEpochMs), ...given]

const lastWithValue = (values: readonly WatchedValue[] | undefined): WatchedValue | null =>
  values?.findLast(({ value }) => value !== null) ?? null

const endless = Number.POSITIVE_INFINITY
