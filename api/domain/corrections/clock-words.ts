import { numberText } from '../reduction/number-text.ts'
import type { ClockText } from './correction.ts'

/** `stamps stand as sent`, `90 s are added to stamps, and 2 s more for each day after`. */
export function clockWords({ addedSeconds, addedSecondsPerDay }: ClockText): string {
  if (addedSeconds === 0 && addedSecondsPerDay === 0) return 'stamps stand as sent'
  const first = addedSeconds < 0 ? 'taken off' : 'added to'
  const further = addedSecondsPerDay < 0 ? 'taken off' : 'added'
  return `${numberText(Math.abs(addedSeconds))} s are ${first} stamps${
    addedSecondsPerDay === 0
      ? ''
      : `, and ${numberText(Math.abs(addedSecondsPerDay))} s ${further} for each day after`
  }`
}
