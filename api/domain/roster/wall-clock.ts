const dayMs = 86_400_000
const minuteMs = 60_000

/** What clocks in a zone show. */
export interface WallReading {
  /** Days of the local calendar since 1 January 1970. */
  readonly day: number
  /** Minutes after local midnight, whole, 0 to 1439. */
  readonly minute: number
}

/** The date and time of day on the clocks of a zone (`UTC` or an IANA name). */
export function wallReading(atEpochMs: number, zone: string): WallReading {
  const wall = atEpochMs + zoneOffsetMs(atEpochMs, zone)
  const day = Math.floor(wall / dayMs)
  return { day, minute: Math.floor((wall - day * dayMs) / minuteMs) }
}

/**
 * The first instant at which the clocks of a zone show that minute of that day, or a later one. So a time that is shown
 * twice means its first pass, one that is skipped means the jump, and two people who hand over at a time of day do so
 * at one instant on every day of the year.
 */
export function firstInstantShowing(day: number, minute: number, zone: string): number {
  const key = `${zone} ${day} ${minute}`
  const found = known.get(key)
  if (found !== undefined) return found
  if (known.size > mostKnown) known.clear()
  const instant = findInstant(day * dayMs + minute * minuteMs, zone)
  known.set(key, instant)
  return instant
}

// The rules of zones do not change while a process runs; a roster asks for the same instants over and over.
const known = new Map<string, number>()
const mostKnown = 20_000

function findInstant(wall: number, zone: string): number {
  const before = zoneOffsetMs(wall - dayMs, zone)
  const after = zoneOffsetMs(wall + dayMs, zone)
  const early = wall - before
  if (before === after || zoneOffsetMs(early, zone) === before) return early
  const late = wall - after
  if (zoneOffsetMs(late, zone) === after) return late
  let [old, changed] = [late, early]
  while (changed - old > 1) {
    const middle = Math.floor((old + changed) / 2)
    if (zoneOffsetMs(middle, zone) === before) old = middle
    else changed = middle
  }
  return changed
}

/** Offset of a zone's clocks from UTC, milliseconds, east positive, by the IANA rules that the machine has. */
export function zoneOffsetMs(atEpochMs: number, zone: string): number {
  const key = `${zone} ${atEpochMs}`
  const found = offsets.get(key)
  if (found !== undefined) return found
  if (offsets.size > mostKnown) offsets.clear()
  const offset = readOffsetMs(atEpochMs, zone)
  offsets.set(key, offset)
  return offset
}

// A flood of alerts asks who is on at one instant over and over.
const offsets = new Map<string, number>()

function readOffsetMs(atEpochMs: number, zone: string): number {
  const part: Record<string, number> = {}
  for (const { type, value } of formatOf(zone).formatToParts(atEpochMs)) part[type] = Number(value)
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(atEpochMs / 1000) * 1000
}

const formats = new Map<string, Intl.DateTimeFormat>()

function formatOf(zone: string): Intl.DateTimeFormat {
  const found = formats.get(zone)
  if (found) return found
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  })
  formats.set(zone, format)
  return format
}
