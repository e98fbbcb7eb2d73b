import type { CheckLimits } from './flag-reading.ts'
import type { Limits } from './limits.ts'

/** How far from a reading others bear on its marks; 0: it is checked by itself. */
export interface Reach {
  readonly beforeMinutes: number
  readonly afterMinutes: number
}

/** Planned intervals that may lie between neighbours; readings farther apart are not held against each other. */
const neighbourIntervals = 3

/** How far apart in time two readings may be that count as neighbours, in minutes; the interval is the planned one. */
export const neighbourMinutes = (intervalMinutes: number): number => neighbourIntervals * intervalMinutes

/**
 * How far around a reading others must be known so that its marks do not depend on where a window was cut: neighbours
 * for the rate and the spike, the longest limit and a neighbour more for a stuck value (so that the last reading of the
 * run beyond the limit is seen), the longest limit and a little more for a gap (so that "none in reach" is beyond it).
 */
export function reachOf(limits: CheckLimits, intervalMinutes: number): Reach {
  const neighbour = neighbourMinutes(intervalMinutes)
  const beyond = (own: Limits | undefined, unitMinutes: number) =>
    own ? Math.max(own.suspectAbove ?? 0, own.failAbove ?? 0) * unitMinutes + neighbour : 0
  return {
    beforeMinutes: Math.max(
      limits.spike || limits['rate-of-change'] ? neighbour : 0,
      beyond(limits['stuck-value'], 60),
      beyond(limits.gap, 1),
    ),
    afterMinutes: limits.spike ? neighbour : 0,
  }
}
