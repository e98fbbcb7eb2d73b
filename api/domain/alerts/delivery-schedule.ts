/**
 * Milliseconds between one failed attempt and the next: close together at first, since the next escalation does not wait,
 * then those of the published example (Standard Webhooks 1.0.0, "Deliverability and reliability": 5 minutes, 30 minutes,
 * 2, 5, 10, 14 hours), so that a receiver that was down over a weekend's day still hears of it.
 */
const waitsMs: readonly number[] = [
  5_000,
  15_000,
  60_000,
  5 * 60_000,
  30 * 60_000,
  2 * 3_600_000,
  5 * 3_600_000,
  10 * 3_600_000,
  14 * 3_600_000,
]

/** Share of a wait by which it may be shorter or longer, so that many messages do not all come back at once. */
const jitterShare = 0.15

/** A receiver may ask for patience, but not for so much that an alert is as good as lost. */
const longestAskedMs = 3_600_000

/** How often a message is sent to one address at most, the first time counted. */
export const mostAttempts = waitsMs.length + 1

/**
 * Milliseconds to wait after the attempt of a number (1: the first) failed; null: it was the last. `jitter` is from 0 to 1
 * and spreads the wait from 0.85 to 1.15 of the planned one. A longer wait that the receiver asked for holds, up to an hour.
 */
export function waitAfterAttempt(attempt: number, jitter: number, askedMs = 0): number | null {
  const plannedMs = waitsMs[attempt - 1]
  if (plannedMs === undefined) return null
  const spread = 1 + jitterShare * (2 * Math.min(1, Math.max(0, jitter)) - 1)
  return Math.round(Math.max(plannedMs * spread, Math.min(askedMs, longestAskedMs)))
}
