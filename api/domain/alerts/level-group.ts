import { assert } from '../assert.ts'
import type { Stretch } from '../levels/value-levels.ts'
import { watchedBy } from '../levels/watched-by.ts'
import type { TriggerLevel } from '../site/tables.ts'
import { beginFold, type Episode, episodesOf, type FoldState, foldOn, type WatchedValue } from './episode.ts'
import { beginSilence, type SilenceState, silenceOn, silencesOf } from './fold-silence.ts'
import { watchedValues } from './watched-values.ts'

/** A level on values of series, which go by numbers here. Combinations watch other levels and stand in no group. */
export interface GroupedLevel {
  readonly level: TriggerLevel
  readonly series: number
  /** Difference: the series that is subtracted. */
  readonly against: number | null
  /** When it applies; of a change not before the instant that it is counted from. */
  readonly inForce: readonly Stretch[]
}

type LevelState = FoldState | SilenceState

/** How far one level is folded. */
interface LevelFold {
  /** Values before `settledUntilEpochMs` of the group. */
  readonly settled: LevelState
  /** All values. */
  readonly folded: LevelState
  /** Change: the reading that it is counted from; null: none is known of. */
  readonly start: WatchedValue | null
}

/**
 * Levels that hang on the same series, and how far they are folded. The last values stay at hand, so that one that
 * comes late, again, or differently is folded in its place; what is older is settled. Plain data, kept between starts.
 */
export interface LevelGroup {
  readonly settledUntilEpochMs: number
  /** Instant of the last value folded. */
  readonly foldedEpochMs: number
  readonly folds: readonly LevelFold[]
  /** By series, every value from the settled instant on, and before it as far as windows of levels reach back. */
  readonly tails: Readonly<Record<number, readonly WatchedValue[]>>
  /** By series, its last reading with a value. */
  readonly lastKnown: Readonly<Record<number, WatchedValue>>
}

/** Before every reading; a number that JSON keeps. */
export const beginningEpochMs = Number.MIN_SAFE_INTEGER

export const beginGroup = (levels: readonly GroupedLevel[]): LevelGroup => ({
  settledUntilEpochMs: beginningEpochMs,
  foldedEpochMs: beginningEpochMs,
  folds: levels.map(({ level, inForce }) => {
    const state = isSilence(level) ? beginSilence(level, inForce) : beginFold(level, inForce)
    return { settled: state, folded: state, start: null }
  }),
  tails: {},
  lastKnown: {},
})

/** Whether values from an instant on can be taken in; otherwise the group is folded anew from all of its values. */
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
  assert(reachesBackTo(group, fromEpochMs), `values from ${fromEpochMs} are settled`)
  const tails = { ...group.tails }
  const lastKnown = { ...group.lastKnown }
  for (const [series, values] of given) {
    tails[series] = [...before(tails[series] ?? [], fromEpochMs), ...values]
    const last = values.findLast(({ value }) => value !== null)
    if (last) lastKnown[series] = last
  }
  const started = levels.map(({ level, series }, at): LevelFold => {
    const fold = group.folds[at] as LevelFold
    const start = level.changeSince == null ? null : startOf(tails[series] ?? [], level.changeSince)
    return start ? { ...fold, start } : fold
  })
  const ends = [...given.keys()].map((series) => tails[series]?.at(-1)?.atEpochMs ?? beginningEpochMs)
  const next = { ...group, tails, lastKnown, foldedEpochMs: Math.max(group.foldedEpochMs, ...ends) }
  const onward =
    fromEpochMs > group.foldedEpochMs &&
    levels.every(({ level }) => level.changeSince == null || fromEpochMs > level.changeSince)
  const folds = levels.map((level, at) => {
    const fold = started[at] as LevelFold
    const onto = onward ? fold.folded : fold.settled
    const from = onward ? fromEpochMs : group.settledUntilEpochMs
    const folded = foldStretch(level, onto, fold.start, tails, from, Number.POSITIVE_INFINITY)
    if (folded.refoldFromEpochMs === null || !onward) return { ...fold, folded }
    const again = foldStretch(
      level,
      fold.settled,
      fold.start,
      tails,
      group.settledUntilEpochMs,
      Number.POSITIVE_INFINITY,
    )
    return { ...fold, folded: again }
  })
  return folds.some(({ folded }) => folded.refoldFromEpochMs !== null) ? null : { ...next, folds }
}

/** The group with all but its last values settled, once it has twice as many of a series at hand as are kept. */
export function settle(levels: readonly GroupedLevel[], group: LevelGroup, keptValues = 64): LevelGroup {
  const unsettled = Object.values(group.tails).map((values) => since(values, group.settledUntilEpochMs))
  const longest = unsettled.reduce((one, other) => (other.length > one.length ? other : one), [])
  if (longest.length <= 2 * keptValues) return group
  const until = longest.at(-keptValues)?.atEpochMs ?? beginningEpochMs
  if (!levels.every((one) => !isSilence(one.level) || isInOrder(group.tails[one.series] ?? [], until)))
    return group
  const windowMs = Math.max(0, ...levels.map(({ level }) => windowOf(level)))
  const folds = levels.map((level, at) => {
    const fold = group.folds[at] as LevelFold
    const from = group.settledUntilEpochMs
    return { ...fold, settled: foldStretch(level, fold.settled, fold.start, group.tails, from, until) }
  })
  const tails = Object.fromEntries(
    Object.entries(group.tails).map(([series, values]) => [series, since(values, until - windowMs)]),
  )
  return { ...group, settledUntilEpochMs: until, folds, tails }
}

/** Episodes of the level at a place in its group, up to an instant. */
export function episodesInGroup(group: LevelGroup, at: number, asOfEpochMs: number): readonly Episode[] {
  const { folded } = group.folds[at] as LevelFold
  return isSilenceState(folded) ? silencesOf(folded, asOfEpochMs) : episodesOf(folded, asOfEpochMs)
}

/** Folds what a level watches in [fromEpochMs, untilEpochMs) onto a state. */
function foldStretch(
  { level, series, against }: GroupedLevel,
  state: LevelState,
  start: WatchedValue | null,
  tails: LevelGroup['tails'],
  fromEpochMs: number,
  untilEpochMs: number,
): LevelState {
  if (isSilenceState(state))
    return before(since(tails[series] ?? [], fromEpochMs), untilEpochMs)
      .filter(({ value }) => value !== null)
      .toSorted(
        (one, other) => one.receivedAtEpochMs - other.receivedAtEpochMs || one.atEpochMs - other.atEpochMs,
      )
      .reduce(silenceOn, state)
  const around = fromEpochMs - windowOf(level)
  const own = since(tails[series] ?? [], around)
  const others = against === null ? [] : since(tails[against] ?? [], around)
  const isMissing = start !== null && start.atEpochMs < (own[0]?.atEpochMs ?? Number.POSITIVE_INFINITY)
  const watched = watchedValues(level, isMissing ? [start, ...own] : own, others)
  return before(since(watched, fromEpochMs), untilEpochMs).reduce(foldOn, state)
}

const windowOf = ({ windowMinutes }: TriggerLevel): number => (windowMinutes ?? 0) * 60_000

const startOf = (values: readonly WatchedValue[], sinceEpochMs: number): WatchedValue | null =>
  values.findLast(({ atEpochMs, value }) => atEpochMs <= sinceEpochMs && value !== null) ?? null

/** Receipts are folded in their own order, so what is settled must have been received before the rest. */
function isInOrder(values: readonly WatchedValue[], untilEpochMs: number): boolean {
  let latest = Number.NEGATIVE_INFINITY
  let earliest = Number.POSITIVE_INFINITY
  for (const { atEpochMs, receivedAtEpochMs, value } of values) {
    if (value === null) continue
    if (atEpochMs < untilEpochMs) latest = Math.max(latest, receivedAtEpochMs)
    else earliest = Math.min(earliest, receivedAtEpochMs)
  }
  return latest <= earliest
}

const isSilence = (level: TriggerLevel): boolean => watchedBy(level) === 'silence'

const isSilenceState = (state: LevelState): state is SilenceState => 'allowedMinutes' in state

/** Values at or after an instant, and those before one; looked for from the end, where it nearly always is. */
const since = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(values.findLastIndex(({ atEpochMs }) => atEpochMs < epochMs) + 1)
const before = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(0, values.findLastIndex(({ atEpochMs }) => atEpochMs < epochMs) + 1)
