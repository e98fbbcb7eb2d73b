import { longestWindowMs } from './fold-stretch.ts'
import type { GroupedLevel, LevelGroup, LevelState } from './level-group.ts'

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
