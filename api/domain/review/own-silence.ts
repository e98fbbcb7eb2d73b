import type { ReviewCase } from './review-case.ts'

const fewestIntervals = 8
const leastMs = 86_400_000

const damagedWithinMetres = 10

/**
 * Since when the series has given no value, longer than it may be late and than a few intervals; null: it goes on, or
 * was taken out of use. Given up on the day of damage noted beside it, it did not end by decision: its silence counts.
 */
export function ownSilence(reviewed: ReviewCase): { readonly sinceEpochMs: number } | null {
  const { subject, lateAfterMinutes, untilEpochMs } = reviewed
  const last = subject.atEpochMs.at(-1)
  if (last === undefined || endedByDecision(reviewed)) return null
  const allowedMs =
    lateAfterMinutes * 60_000 + Math.max(leastMs, fewestIntervals * subject.intervalMinutes * 60_000)
  return untilEpochMs - last > allowedMs ? { sinceEpochMs: last } : null
}

const endedByDecision = ({ outOfUseSinceEpochMs: ended, notes }: ReviewCase): boolean =>
  ended !== null &&
  !notes.some(
    ({ kind, atEpochMs, distanceMetres }) =>
      kind === 'damage' &&
      distanceMetres !== null &&
      distanceMetres <= damagedWithinMetres &&
      Math.abs(atEpochMs - ended) <= 86_400_000,
  )
