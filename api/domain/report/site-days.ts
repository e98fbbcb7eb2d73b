import { monthWords } from '../calendar-words.ts'
import { firstInstantShowing, wallReading } from '../roster/wall-clock.ts'

/** Days of the local calendar since 1 January 1970, of an instant in the zone of the site. */
export const siteDay = (atEpochMs: number, timeZone: string): number => wallReading(atEpochMs, timeZone).day

/** The same of many instants: the zone is asked once a day for those that come one after the other. */
export function siteDays(timeZone: string): (atEpochMs: number) => number {
  let [day, fromEpochMs, untilEpochMs] = [0, 0, 0]
  return (atEpochMs) => {
    if (atEpochMs < fromEpochMs || atEpochMs >= untilEpochMs) {
      day = siteDay(atEpochMs, timeZone)
      fromEpochMs = startOfSiteDay(day, timeZone)
      untilEpochMs = startOfSiteDay(day + 1, timeZone)
    }
    return day
  }
}

/** The first instant of a local day: midnight, or where the clocks skip it, the jump. */
export const startOfSiteDay = (day: number, timeZone: string): number => firstInstantShowing(day, 0, timeZone)

/** `2027-09-14`, of a local day. */
export const isoDay = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10)

/** `14 Sep 2027`, of a local day. */
export function dayText(day: number): string {
  const date = new Date(day * 86_400_000)
  return `${date.getUTCDate()} ${monthWords[date.getUTCMonth()]} ${date.getUTCFullYear()}`
}

/** `14 Sep 2027 06:05`, in the zone of the site. */
export function instantText(atEpochMs: number, timeZone: string): string {
  const { day, minute } = wallReading(atEpochMs, timeZone)
  return `${dayText(day)} ${clockText(minute)}`
}

/** `06:05`, of a local minute of the day. */
export const clockText = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`
