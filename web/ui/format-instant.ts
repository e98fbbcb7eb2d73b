import { monthWords, weekdayWords } from '#domain/calendar-words.ts'

/** An instant as people on the works read it: `Thu 12 Aug 2027 14:00`, in the site's zone. */
export function formatInstant(atEpochMs: number, timeZone: string): string {
  const part = parts(atEpochMs, timeZone)
  return `${part.weekday} ${part.day} ${part.month} ${part.year} ${part.hour}:${part.minute}`
}

/** The day alone: `12 Aug 2027`. */
export function formatDay(atEpochMs: number, timeZone: string): string {
  const part = parts(atEpochMs, timeZone)
  return `${part.day} ${part.month} ${part.year}`
}

/** The same without weekday and year, for tables: `12 Aug 14:00`. */
export function formatShortInstant(atEpochMs: number, timeZone: string): string {
  const part = parts(atEpochMs, timeZone)
  return `${part.day} ${part.month} ${part.hour}:${part.minute}`
}

/** Offset of the site's clock from UTC at that instant: `UTC−01:00`. Tells the repeated hour apart. */
export function formatOffset(atEpochMs: number, timeZone: string): string {
  const minutes = Math.round(offsetMs(atEpochMs, timeZone) / 60_000)
  const length = Math.abs(minutes)
  return `UTC${minutes < 0 ? '−' : '+'}${twoDigits(Math.floor(length / 60))}:${twoDigits(length % 60)}`
}

/** Length of time in the largest two units that say something: `45 min`, `3 h 20 min`, `12 d`. Negative: 0 min. */
export function formatAge(lengthMs: number): string {
  const minutes = Math.max(0, Math.round(lengthMs / 60_000))
  if (minutes < 60) return `${minutes} min`
  const hours = Math.floor(minutes / 60)
  if (hours < 10 && minutes % 60 !== 0) return `${hours} h ${minutes % 60} min`
  if (hours < 48) return `${Math.round(minutes / 60)} h`
  return `${Math.round(minutes / 1440)} d`
}

/** UTC offset of the zone at an instant, milliseconds, east positive. */
export function offsetMs(atEpochMs: number, timeZone: string): number {
  const part = numericParts(atEpochMs, timeZone)
  const wall = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second)
  return wall - Math.floor(atEpochMs / 1000) * 1000
}

/** `2027-08-12T14:00` for a datetime-local field, in the site's zone. */
export function toLocalField(atEpochMs: number, timeZone: string): string {
  return new Date(atEpochMs + offsetMs(atEpochMs, timeZone)).toISOString().slice(0, 16)
}

/** Instant of a datetime-local text in the site's zone; of a repeated hour, the first. Null when unreadable. */
export function fromLocalField(text: string, timeZone: string): number | null {
  const wall = Date.parse(`${text}Z`)
  if (!Number.isFinite(wall)) return null
  const dayMs = 86_400_000
  const earlier = wall - offsetMs(wall - dayMs, timeZone)
  if (earlier + offsetMs(earlier, timeZone) === wall) return earlier
  return wall - offsetMs(wall + dayMs, timeZone)
}

const numberFormats = new Map<string, Intl.DateTimeFormat>()

/** The machine gives numbers alone: its words for months and offsets change with its version. */
function parts(atEpochMs: number, timeZone: string) {
  const { year, month, day, hour, minute } = numericParts(atEpochMs, timeZone)
  const weekday = new Date(Date.UTC(year, month - 1, day)).getUTCDay()
  return {
    weekday: weekdayWords[(weekday + 6) % 7],
    day,
    month: monthWords[month - 1],
    year,
    hour: twoDigits(hour),
    minute: twoDigits(minute),
  }
}

const twoDigits = (count: number): string => String(count).padStart(2, '0')

function numericParts(atEpochMs: number, timeZone: string) {
  const format = numberFormat(timeZone)
  const found = Object.fromEntries(
    format.formatToParts(atEpochMs).map((piece) => [piece.type, Number(piece.value)]),
  )
  return {
    year: found.year ?? 1970,
    month: found.month ?? 1,
    day: found.day ?? 1,
    hour: found.hour ?? 0,
    minute: found.minute ?? 0,
    second: found.second ?? 0,
  }
}

function numberFormat(timeZone: string): Intl.DateTimeFormat {
  const found =
    numberFormats.get(timeZone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone,
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
      hourCycle: 'h23',
    })
  numberFormats.set(timeZone, found)
  return found
}
