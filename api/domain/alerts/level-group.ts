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

/** What was settled at an earlier instant. */
interface Checkpoint {
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

/** Whether values from an instant on can be taken in as the group is. */
export const reachesBackTo = (group: LevelGroup, fromEpochMs: number): boolean =>
  fromEpochMs >= group.settledUntilEpochMs

/**
 * The group as it was settled before an instant, without values at hand: those of all its series from `fromEpochMs` on
 * must be taken in. Null: nothing was kept from before it, and the group is folded anew from all of its values.
 */
export function rewindTo(
  levels: readonly GroupedLevel[],
  group: LevelGroup,
  beforeEpochMs: number,
): { readonly group: LevelGroup; readonly fromEpochMs: number } | null {
  const at = group.checkpoints.findLastIndex(
    ({ settledUntilEpochMs }) => settledUntilEpochMs <= beforeEpochMs,
  )
  const checkpoint = group.checkpoints[at]
  if (checkpoint === undefined) return null
  const { settledUntilEpochMs, settled } = checkpoint
  return {
    group: {
      ...group,
      settledUntilEpochMs,
      checkpoints: group.checkpoints.slice(0, at),
      foldedEpochMs: settledUntilEpochMs,
      folds: group.folds.map(({ start }, level) => {
        const state = settled[level] as LevelState
        return { settled: state, folded: state, start }
      }),
      tails: group.tails.map(() => []),
    },
    fromEpochMs: settledUntilEpochMs - longestWindowMs(levels),
  }
}

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

/**
 * The group with all but its last values settled: those that are kept of a series, and a part more. Groups of other
 * series do so at other times, so that a batch of readings of them all is not held up by all of them at once.
 */
export function settle(levels: readonly GroupedLevel[], group: LevelGroup, keptValues = 32): LevelGroup {
  const { series, settledUntilEpochMs } = group
  const portion = Math.max(1, keptValues >> 2)
  const kept = keptValues + ((series[0] ?? 0) % portion)
  const longest = group.tails.reduce((one, other) => (other.length > one.length ? other : one), [])
  if (longest.length - firstSince(longest, settledUntilEpochMs) <= kept + portion) return group
  const until = longest.at(-kept)?.atEpochMs ?? beginningEpochMs
  const isSettled = ({ level, series: of }: GroupedLevel) =>
    !isSilence(level) || isInOrder(tailOf(series, group.tails, of), until)
  if (!levels.every(isSettled)) return group
  const windowMs = longestWindowMs(levels)
  const folds = levels.map((level, at): LevelFold => {
    const { settled, folded, start } = group.folds[at] as LevelFold
    return { settled: foldStretch(level, settled, start, group, settledUntilEpochMs, until), folded, start }
  })
  const tails = group.tails.map((values) => since(values, until - windowMs))
  const settled = { settledUntilEpochMs, settled: group.folds.map((fold) => fold.settled) }
  const checkpoints =
    settledUntilEpochMs === beginningEpochMs ? [] : thinned([...group.checkpoints, settled], until)
  return { ...group, settledUntilEpochMs: until, checkpoints, folds, tails }
}

/** Checkpoints as far apart as they are old, so that few are kept however long a series goes on. */
function thinned(checkpoints: readonly Checkpoint[], nowEpochMs: number): readonly Checkpoint[] {
  const instant = (at: number) => checkpoints[at]?.settledUntilEpochMs ?? beginningEpochMs
  return checkpoints.filter(
    (_, at) =>
      at === 0 ||
      at === checkpoints.length - 1 ||
      instant(at + 1) - instant(at - 1) > nowEpochMs - instant(at + 1),
  )
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

/** Folds what a level watches in [fromEpochMs, untilEpochMs) onto a state. */
function foldStretch(
  { level, series, against }: GroupedLevel,
  state: LevelState,
  start: WatchedValue | null,
  group: Pick<LevelGroup, 'series' | 'tails'>,
  fromEpochMs: number,
  untilEpochMs: number,
): LevelState {
  const all = tailOf(group.series, group.tails, series)
  if (isSilenceState(state))
    return before(since(all, fromEpochMs), untilEpochMs)
      .filter(({ value }) => value !== null)
      .toSorted(
        (one, other) => one.receivedAtEpochMs - other.receivedAtEpochMs || one.atEpochMs - other.atEpochMs,
      )
      .reduce(silenceOn, state)
  if (watchedBy(level) === 'value') return foldBetween(state, all, fromEpochMs, untilEpochMs)
  const around = fromEpochMs - windowOf(level)
  const own = since(all, around)
  const others = against === null ? [] : since(tailOf(group.series, group.tails, against), around)
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

const longestWindowMs = (levels: readonly GroupedLevel[]): number =>
  Math.max(0, ...levels.map(({ level }) => windowOf(level)))

const windowOf = ({ windowMinutes }: TriggerLevel): number => (windowMinutes ?? 0) * 60_000

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
): readonly WatchedValue[] => (given === undefined ? values : [...before(values, fromEpochMs), ...given])

const lastWithValue = (values: readonly WatchedValue[] | undefined): WatchedValue | null =>
  values?.findLast(({ value }) => value !== null) ?? null

const tailOf = (series: readonly number[], tails: LevelGroup['tails'], of: number): readonly WatchedValue[] =>
  tails[series.indexOf(of)] ?? []

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

const endless = Number.POSITIVE_INFINITY

const isSilence = (level: TriggerLevel): boolean => watchedBy(level) === 'silence'

const isSilenceState = (state: LevelState): state is SilenceState => 'allowedMinutes' in state

/** Index of the first value at or after an instant; looked for from the end, where it nearly always is. */
function firstSince(values: readonly WatchedValue[], epochMs: number): number {
  let at = values.length
  while (at > 0 && (values[at - 1] as WatchedValue).atEpochMs >= epochMs) at--
  return at
}

const since = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(firstSince(values, epochMs))
const before = (values: readonly WatchedValue[], epochMs: number): readonly WatchedValue[] =>
  values.slice(0, firstSince(values, epochMs))
