import type { LevelGroup } from '#domain/alerts/level-group.ts'
import type { FoldRequest } from './fold-request.ts'
import type { WatchedGroup } from './watch-plan.ts'

/** A group that is folded, and the values of its series that are asked for. */
export interface Asked {
  readonly group: WatchedGroup
  readonly series: readonly number[]
  /** From when on their values are asked for: nothing before it is new or another. */
  readonly fromEpochMs: number
  /** What they are folded onto; null: everything is folded anew. */
  readonly onto: LevelGroup | null
}

/** Watched series that hang on what arrived, each with the first instant at which it may have changed. */
export function touchedSeries({ plan, arrived }: FoldRequest): ReadonlyMap<number, number> {
  const touched = new Map<number, number>()
  for (const { channel, ...stamps } of arrived.channels) {
    const { fromEpochMs, untilEpochMs } = plan.needs.instantsOf(channel, stamps)
    for (const one of plan.needs.hangingOn(channel, fromEpochMs, untilEpochMs))
      if (plan.groupOf.has(one)) touched.set(one, Math.min(fromEpochMs, touched.get(one) ?? fromEpochMs))
  }
  return touched
}
