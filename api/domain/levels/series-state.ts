import type { TriggerLevel } from '../site/tables.ts'
import { judge } from './judge.ts'
import { isLate } from './lateness.ts'
import { levelsInForce } from './levels-in-force.ts'

/** The last reading of a series at or before the instant looked at. */
export interface LastReading {
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly value: number | null
  /** Bits of `quality`. */
  readonly quality: number
  /** Marks of the automatic checks (`marksOf`). They say what was noticed and decide nothing here. */
  readonly flags: number
}

/** State of one series at an instant; the wire's `seriesStateSchema` has the same shape. */
export interface SeriesState {
  readonly series: number
  readonly atEpochMs: number | null
  readonly receivedAtEpochMs: number | null
  readonly value: number | null
  readonly quality: number
  readonly flags: number
  readonly shareOfFirstLevel: number | null
  readonly level: number | null
  readonly late: boolean
}

/**
 * The state of a series as of an instant, its last value held against the levels in force then.
 * A late value is never within levels: where it had reached none, level and share become null (not known);
 * where it had reached one, that stands, because silence does not undo it, and `late` stands beside it.
 */
export function seriesState(input: {
  readonly series: number
  readonly last: LastReading | null
  /** Every level on the value of this series, whenever in force (`valueLevels`). */
  readonly levels: readonly TriggerLevel[]
  readonly asOfEpochMs: number
  readonly lateAfterMinutes: number
}): SeriesState {
  const { series, last, levels, asOfEpochMs, lateAfterMinutes } = input
  const lastKnown = last === null ? null : Math.min(last.atEpochMs, last.receivedAtEpochMs)
  const late = isLate(lastKnown, asOfEpochMs, lateAfterMinutes)
  const value = last?.value ?? null
  const judged = judge(value, levelsInForce(levels, asOfEpochMs))
  const known = !late || (judged.level ?? 0) > 0
  return {
    series,
    atEpochMs: last?.atEpochMs ?? null,
    receivedAtEpochMs: last?.receivedAtEpochMs ?? null,
    value,
    quality: last?.quality ?? 0,
    flags: last?.flags ?? 0,
    shareOfFirstLevel: known ? judged.shareOfFirstLevel : null,
    level: known ? judged.level : null,
    late,
  }
}
