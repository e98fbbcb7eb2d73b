import type { WatchedValue } from './episode.ts'
import { foldStretch, longestWindowMs, tailOf } from './fold-stretch.ts'
import {
  beginningEpochMs,
  type Checkpoint,
  type GroupedLevel,
  isSilence,
  type LevelFold,
  type LevelGroup,
} from './level-group.ts'
import { firstSince, valuesSince } from './values-by-time.ts'

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
  const tails = group.tails.map((values) => valuesSince(values, until - windowMs))
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
