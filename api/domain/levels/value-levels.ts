import type { Stage, TriggerLevel } from '../site/tables.ts'
import { watchedBy } from './watched-by.ts'

/** Half-open stretch of time: from its first instant on and before its end; null: without end. */
export interface Stretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number | null
}

/**
 * When a level applies: while it is valid, and of that, where it names a stage, from the stage's first instant on and
 * before its end. Null: at no time, or the stage is not known.
 */
export function inForceOf(
  level: Pick<TriggerLevel, 'validFrom' | 'validUntil' | 'stage'>,
  stages: readonly Pick<Stage, 'id' | 'startsAt' | 'endsAt'>[],
): Stretch | null {
  const { validFrom, validUntil } = level
  if (level.stage == null) return { fromEpochMs: validFrom, untilEpochMs: validUntil }
  const stage = stages.find(({ id }) => id === level.stage)
  if (stage === undefined) return null
  const fromEpochMs = Math.max(validFrom, stage.startsAt)
  const untilEpochMs = earlierEnd(validUntil, stage.endsAt)
  return untilEpochMs === null || fromEpochMs < untilEpochMs ? { fromEpochMs, untilEpochMs } : null
}

/**
 * The levels against which a value itself may be held, coloured and drawn: those that watch the value, each valid only
 * while it and its stage are. A series with other kinds of levels alone has none here, and so no calm colour.
 */
export function valueLevels<L extends Pick<TriggerLevel, 'validFrom' | 'validUntil' | 'stage' | 'watches'>>(
  levels: readonly L[],
  stages: readonly Pick<Stage, 'id' | 'startsAt' | 'endsAt'>[],
): readonly L[] {
  return levels.flatMap((level) => {
    if (watchedBy(level) !== 'value') return []
    if (level.stage == null) return [level]
    const stretch = inForceOf(level, stages)
    return stretch === null
      ? []
      : [{ ...level, validFrom: stretch.fromEpochMs, validUntil: stretch.untilEpochMs }]
  })
}

const earlierEnd = (one: number | null, other: number | null): number | null =>
  one === null ? other : other === null ? one : Math.min(one, other)
