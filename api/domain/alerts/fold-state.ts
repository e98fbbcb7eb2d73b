import { valueToLeave } from '../levels/judge.ts'
import type { Stretch } from '../levels/value-levels.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { Episode, WatchedValue } from './episode.ts'
import type { Run } from './run-of-readings.ts'

/** What folding needs of a level: plain data, made once a level. */
export interface FoldRule {
  readonly level: string
  readonly direction: TriggerLevel['direction']
  readonly value: number
  /** Value at which it is left: the level brought nearer by its hysteresis. */
  readonly leaveValue: number
  readonly holdReadings: number
  readonly holdMs: number
  /** Null: readings however far apart count together. */
  readonly longestGapMs: number | null
  /** When it applies, in order and apart from each other. */
  readonly inForce: readonly Stretch[]
}

/** How far the values of a level have been folded. Plain data, to be kept between batches. */
export interface FoldState {
  readonly rule: FoldRule
  readonly ended: readonly Episode[]
  readonly open: Episode | null
  /** Of an open episode: the run towards being held, or once held, towards being left. */
  readonly run: Run | null
  /** The last values folded, newest last, by which those given again are known. */
  readonly recent: readonly WatchedValue[]
  /** Earliest value that came too late to be folded in its place; null: none. Fold again from before it. */
  readonly refoldFromEpochMs: number | null
}

/** A level of which nothing has been folded yet. */
export function beginFold(
  level: TriggerLevel,
  inForce: readonly Stretch[] = [{ fromEpochMs: level.validFrom, untilEpochMs: level.validUntil }],
): FoldState {
  const minutes = (given: number | null | undefined) => (given == null ? null : given * 60_000)
  return {
    rule: {
      level: level.id,
      direction: level.direction,
      value: level.value,
      leaveValue: valueToLeave(level, level.hysteresisShare ?? 0),
      holdReadings: level.holdReadings ?? 1,
      holdMs: minutes(level.holdMinutes) ?? 0,
      longestGapMs: minutes(level.longestGapMinutes),
      inForce: inForce.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs),
    },
    ended: [],
    open: null,
    run: null,
    recent: [],
    refoldFromEpochMs: null,
  }
}
