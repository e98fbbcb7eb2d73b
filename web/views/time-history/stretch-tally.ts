import type { Resolution } from '#contract/slice-columns.ts'
import { judge } from '#domain/levels/judge.ts'
import { levelsInForce } from '#domain/levels/levels-in-force.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { HistoryStretch, HistoryTrace } from './history-props.ts'

/** What a stretch of one series covers. */
export interface StretchTally {
  /** Readings themselves, or hours or days of them: those whose middle lies in the stretch count. */
  readonly resolution: Resolution
  /** Readings in it; of hours and days, those with a value. */
  readonly readings: number
  /** Readings without a value; null where hours or days do not tell. */
  readonly withoutValue: number | null
  /** Readings, hours or days that an automatic check marked. */
  readonly marked: number
  /** The highest trigger level reached in it, how many readings, hours or days reached any, and the first; null: none. */
  readonly reached: { readonly level: number; readonly times: number; readonly firstEpochMs: number } | null
  /** True where a trigger level was in force at any of them. */
  readonly watched: boolean
}

/** Counts what lies in a stretch: readings, marks of checks, and levels reached, judged as states are. */
export function tallyStretch(
  trace: HistoryTrace,
  { fromEpochMs, untilEpochMs }: HistoryStretch,
  levels: readonly TriggerLevel[],
): StretchTally {
  const raw = trace.resolution === 'raw'
  let readings = 0
  let withoutValue = 0
  let marked = 0
  let watched = false
  let reached = null as StretchTally['reached']
  for (let row = 0; row < trace.atEpochMs.length; row++) {
    const at = trace.atEpochMs[row] as number
    if (at < fromEpochMs || at >= untilEpochMs) continue
    const count = trace.count[row] ?? 0
    readings += raw ? 1 : count
    if (count === 0) withoutValue++
    if ((trace.flags[row] ?? 0) !== 0) marked++
    const inForce = levelsInForce(levels, at)
    watched ||= inForce.length > 0
    const highest = Math.max(
      ...[trace.low[row], trace.high[row]].map((value) => judge(value ?? null, inForce).level ?? 0),
    )
    if (highest === 0) continue
    reached = {
      level: Math.max(highest, reached?.level ?? 0),
      times: (reached?.times ?? 0) + 1,
      firstEpochMs: reached?.firstEpochMs ?? at,
    }
  }
  return {
    resolution: trace.resolution,
    readings,
    withoutValue: raw ? withoutValue : null,
    marked,
    reached,
    watched,
  }
}
