import type { ReviewCase } from './review-case.ts'

const fewestIntervals = 8
const leastMs = 86_400_000

/** Since when the series has given no value, longer than it may be late and than a few intervals; null: it goes on, or is out of use. */
export function ownSilence({ subject, lateAfterMinutes, outOfUseSinceEpochMs, untilEpochMs }: ReviewCase): {
  readonly sinceEpochMs: number
} | null {
  const last = subject.atEpochMs.at(-1)
  if (last === undefined || outOfUseSinceEpochMs !== null) return null
  const allowedMs =
    lateAfterMinutes * 60_000 + Math.max(leastMs, fewestIntervals * subject.intervalMinutes * 60_000)
  return untilEpochMs - last > allowedMs ? { sinceEpochMs: last } : null
}
