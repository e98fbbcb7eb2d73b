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
  const series = `${later} series`
  if (wanted === 'known')
    return later === 0
      ? 'Only values received by then count: all had come but those of the quarter of an hour before.'
      : `Only values received by then count, not those of the quarter of an hour before: ${series} (hourglass) ${later === 1 ? 'has' : 'have'} newer ones that came later.`
  return later === 0
    ? 'Values count as measured; all had been received by then, or within a quarter of an hour.'
    : `Values count as measured: ${series} (hourglass) ${later === 1 ? 'shows one' : 'show values'} that came later and ${later === 1 ? 'was' : 'were'} not known then.`
}
