import { clockEpochMs } from '../../state/site-clock.ts'

/** A change cannot count from an instant that the clock has not reached: the sentence that says so, or nothing. */
export function startAfterClock(sinceEpochMs: number | null): readonly string[] {
  const at = clockEpochMs()
  return at !== null && sinceEpochMs !== null && sinceEpochMs > at
    ? ['The instant counted from lies after the site clock. Take an earlier one, or move the clock on.']
    : []
}
