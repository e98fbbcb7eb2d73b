import { monthWords } from '../calendar-words.ts'
import { wallReading } from '../roster/wall-clock.ts'

/** Day on the calendar of a zone (`UTC` or an IANA name), ISO 8601: 2027-09-14. */
export const siteDay = (atEpochMs: number, zone: string): string =>
  new Date(wallReading(atEpochMs, zone).day * 86_400_000).toISOString().slice(0, 10)

/** Whether a text is a day that the calendar has, 1950 to 2199, written 2027-09-14. */
export function isDay(text: string): boolean {
  if (!/^(19[5-9]|20\d|21\d)\d-\d\d-\d\d$/.test(text)) return false
  const atEpochMs = Date.parse(`${text}T00:00:00Z`)
  return Number.isFinite(atEpochMs) && new Date(atEpochMs).toISOString().startsWith(text)
}

/** Days from one day to another; negative: the other is earlier. */
export const daysBetween = (from: string, until: string): number =>
  Math.round((Date.parse(`${until}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000)

/** A day as people on the works write it, 14 Sep 2027. */
export function sayDay(day: string): string {
  const date = new Date(`${day}T00:00:00Z`)
  return `${date.getUTCDate()} ${monthWords[date.getUTCMonth()]} ${date.getUTCFullYear()}`
}
