/** A stretch in which what a level watches had reached it. */
export interface Episode {
  /** Id of the trigger level. */
  readonly level: string
  /**
   * First reading of the run that reached it: never lost by persistence. Where the last reading before the level began to
   * apply was beyond it already, the instant at which it began.
   */
  readonly crossedAtEpochMs: number
  /** Reading with which it had stood long enough; null: it never did. */
  readonly heldAtEpochMs: number | null
  /** Reading with which it was left, or end of the level; null: still reached at the last reading. */
  readonly leftAtEpochMs: number | null
  readonly leftBecause: 'value' | 'level-ended' | null
  /** Latest receipt of the readings that made it held; for one never held, receipt of the crossing reading. */
  readonly knownAtEpochMs: number
  /** What stood furthest beyond the level, and when: first of equals. */
  readonly peakValue: number
  readonly peakAtEpochMs: number
}

/** One value of what a level watches; null: the reading has none. */
export interface WatchedValue {
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly value: number | null
}
