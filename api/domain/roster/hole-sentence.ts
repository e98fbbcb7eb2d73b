import { monthWords, weekdayWords } from '../calendar-words.ts'
import type { RosterHole } from './coverage.ts'
import { weekdayOf } from './shift-times.ts'
import { wallReading, zoneOffsetMs } from './wall-clock.ts'

/** An instant on the clocks of a zone, `Tue 2 Mar 03:00`. */
export function sayLocal(atEpochMs: number, zone: string): string {
  const { day, minute } = wallReading(atEpochMs, zone)
  const date = new Date(day * 86_400_000)
  return `${weekdayWords[weekdayOf(day)]} ${date.getUTCDate()} ${monthWords[date.getUTCMonth()]} ${sayTime(minute)}`
}

/** A hole in words, on the clocks of a zone; where they change in it, with offsets from UTC. */
export function holeSentence({ duty, fromEpochMs, untilEpochMs, because }: RosterHole, zone: string): string {
  const [from, until] = [wallReading(fromEpochMs, zone), wallReading(untilEpochMs, zone)]
  const changes = zoneOffsetMs(fromEpochMs, zone) !== zoneOffsetMs(untilEpochMs, zone)
  const offset = (at: number) => (changes ? ` (${sayOffset(zoneOffsetMs(at, zone))})` : '')
  const end = from.day === until.day ? sayTime(until.minute) : sayLocal(untilEpochMs, zone)
  const stretch = `from ${sayLocal(fromEpochMs, zone)}${offset(fromEpochMs)} to ${end}${offset(untilEpochMs)}`
  return because === 'nobody'
    ? `Nobody is on for ${duty} ${stretch}.`
    : `Whoever is on for ${duty} ${stretch} has neither mail nor webhook.`
}

const sayTime = (minute: number) =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

function sayOffset(offsetMs: number): string {
  const minutes = Math.abs(offsetMs) / 60_000
  return `UTC${offsetMs < 0 ? '−' : '+'}${sayTime(minutes)}`
}
