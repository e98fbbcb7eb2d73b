import { monthWords, weekdayWords } from '../calendar-words.ts'
import { weekdayOf } from '../roster/shift-times.ts'
import { wallReading, zoneOffsetMs } from '../roster/wall-clock.ts'

/**
 * An instant on the clocks of a zone with their offset, `Tue 2 Mar 2027 02:55 UTC−01:00`: a message is read on devices
 * elsewhere, and in the night on which an hour comes twice.
 */
export function sayInstant(atEpochMs: number, zone: string): string {
  const { day, minute } = wallReading(atEpochMs, zone)
  const date = new Date(day * 86_400_000)
  const written = `${weekdayWords[weekdayOf(day)]} ${date.getUTCDate()} ${monthWords[date.getUTCMonth()]} ${date.getUTCFullYear()}`
  return `${written} ${clock(minute)} ${offset(zoneOffsetMs(atEpochMs, zone))}`
}

const clock = (minutes: number) =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`

function offset(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000)
  return `UTC${ms < 0 ? '−' : '+'}${clock(minutes)}`
}
