/** What a logger was to read in one UTC day, and what came of it, as known at the instant looked at. */
export interface LoggerDay {
  readonly dayEpochMs: number
  /** Readings that should be here by now: those that its lateness does not excuse yet. */
  readonly due: number
  /** Of these, here by whatever way. */
  readonly held: number
  /** Of these, received within the time after which the logger counts as late. */
  readonly inTime: number
  /** Receipt less stamp: the least and the median of the readings of the day; null without readings. */
  readonly leastDelaySeconds: number | null
  readonly medianDelaySeconds: number | null
}

export interface Completeness {
  readonly due: number
  readonly held: number
  readonly inTime: number
  /** held / due; null where nothing was due. */
  readonly heldShare: number | null
  readonly inTimeShare: number | null
}

/** Days from an instant on, added up. More readings than were due count as those that were. */
export function completenessSince(days: readonly LoggerDay[], fromEpochMs: number): Completeness {
  const counted = days.filter(({ dayEpochMs }) => dayEpochMs >= fromEpochMs)
  const sum = (of: (day: LoggerDay) => number) => counted.reduce((total, day) => total + of(day), 0)
  const due = sum((day) => day.due)
  const held = sum((day) => Math.min(day.held, day.due))
  const inTime = sum((day) => Math.min(day.inTime, day.due))
  return {
    due,
    held,
    inTime,
    heldShare: due === 0 ? null : held / due,
    inTimeShare: due === 0 ? null : inTime / due,
  }
}
