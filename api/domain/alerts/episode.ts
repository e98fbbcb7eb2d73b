/** A stretch in which what a level watches had reached it. */
export interface Episode {
  /** Id of the trigger level. */
  readonly level: string
  /** First reading of the run that reached it: never lost by persistence. */
  readonly crossedAtEpochMs: number
  /** Reading with which it had stood long enough; null: it never did. */
  readonly heldAtEpochMs: number | null
  /** Reading with which it was left; null: still reached at the last reading. */
  readonly leftAtEpochMs: number | null
  readonly leftBecause: 'value' | 'level-ended' | null
  /** Receipt of the reading that made it held; for one never held, of the crossing reading. */
  readonly knownAtEpochMs: number
  readonly peakValue: number
  readonly peakAtEpochMs: number
}
