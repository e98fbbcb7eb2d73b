import type { TriggerLevel } from '../site/tables.ts'

/** What judging a value needs of a trigger level. */
export type JudgedLevel = Pick<TriggerLevel, 'level' | 'direction' | 'value'>

/** Levels that apply at an instant: from `validFrom` on, and before `validUntil` where that is set. */
export const levelsInForce = <L extends Pick<TriggerLevel, 'validFrom' | 'validUntil'>>(
  levels: readonly L[],
  atEpochMs: number,
): readonly L[] =>
  levels.filter(
    ({ validFrom, validUntil }) => validFrom <= atEpochMs && (validUntil === null || atEpochMs < validUntil),
  )
