import type { Counting } from '../state/counted.ts'

/**
 * How values count at the clock, and how many of them came later. `later`: series whose newest value taken by then came
 * later; null: being worked out.
 */
export function countedSentence(at: {
  readonly isPresent: boolean
  readonly isPlaying: boolean
  readonly wanted: Counting
  readonly trouble: string | null
  readonly later: number | null
}): string {
  const { isPresent, isPlaying, wanted, trouble, later } = at
  if (isPresent) return 'At the present only what has been received is shown.'
  if (isPlaying) return 'While the clock runs values count as measured, also those that came later.'
  if (trouble !== null) return trouble
  if (later === null) return 'Values count as measured; what had been received by then is being worked out …'
  const [have, come] = later === 1 ? ['has', 'shows a value'] : ['have', 'show values']
  if (wanted === 'known')
    return later === 0
      ? 'Only what had been received counts: all up to a quarter of an hour before.'
      : `Only what had been received counts, up to a quarter of an hour before: ${later} series (hourglass) ${have} newer values that came later.`
  return later === 0
    ? 'Values count as measured; all had been received, or came within a quarter of an hour.'
    : `Values count as measured: ${later} series (hourglass) ${come} that came later, not known then.`
}
