import { accept, type Outcome, reject } from '#domain/outcome.ts'

/** What a wall clock's reading means in a zone; filled again by every `resolve`. */
export interface WallInstant {
  /** `repeated`: the wall showed it twice; `skipped`: it never did. */
  kind: 'once' | 'repeated' | 'skipped'
  /** UTC microseconds; the first pass where repeated; NaN where skipped. */
  micros: number
  /** UTC microseconds of the second pass; NaN unless repeated. */
  secondMicros: number
}

export interface ZoneOffsets {
  readonly zone: string
  /** One offset for ever: nothing is skipped or repeated. */
  readonly fixed: boolean
  resolve(wallMicros: number, into: WallInstant): void
}

/**
 * A zone's rules: `UTC`, a fixed offset (`-01:00`, `+05:30`), or an IANA name. The rules are those of the IANA
 * time zone database in this Node's ICU, asked once a day of the calendar and remembered.
 */
export function openZone(zone: string): Outcome<ZoneOffsets> {
  if (zone === 'UTC' || zone === 'Z') return accept(fixedZone(zone, 0))
  const fixed = /^(?:UTC)?([+-])(\d{2}):?(\d{2})$/.exec(zone)
  if (fixed) {
    const minutes = Number(fixed[2]) * 60 + Number(fixed[3])
    return accept(fixedZone(zone, (fixed[1] === '-' ? -1 : 1) * minutes * 60e6))
  }
  try {
    return accept(namedZone(zone))
  } catch {
    return reject({
      code: 'zone-unknown',
      message: `"${zone}" is not a time zone: give UTC, an offset such as -01:00, or an IANA name such as Atlantic/Azores.`,
      value: zone,
    })
  }
}

function fixedZone(zone: string, offsetMicros: number): ZoneOffsets {
  return {
    zone,
    fixed: true,
    resolve(wallMicros, into) {
      into.kind = 'once'
      into.micros = wallMicros - offsetMicros
      into.secondMicros = Number.NaN
    },
  }
}

const dayMicros = 86_400e6

interface DayRule {
  readonly from: number
  readonly until: number
  /** Offsets in force from a day before to a day after, in their order; one when nothing changes. */
  readonly offsets: readonly number[]
}

function namedZone(zone: string): ZoneOffsets {
  const offsetAt = offsetReader(zone)
  const days = new Map<number, DayRule>()
  let rule: DayRule = { from: 0, until: 0, offsets: [] }

  function ruleOf(wallMicros: number): DayRule {
    const day = Math.floor(wallMicros / dayMicros)
    const known = days.get(day)
    if (known) return known
    const offsets: number[] = []
    for (let hours = -24; hours <= 48; hours += 6) {
      const offset = offsetAt(day * dayMicros + hours * 3_600e6)
      if (offset !== offsets[offsets.length - 1]) offsets.push(offset)
    }
    const made = { from: day * dayMicros, until: (day + 1) * dayMicros, offsets }
    if (days.size > 20_000) days.clear()
    days.set(day, made)
    return made
  }

  return {
    zone,
    fixed: false,
    resolve(wallMicros, into) {
      if (wallMicros < rule.from || wallMicros >= rule.until) rule = ruleOf(wallMicros)
      into.kind = 'once'
      into.secondMicros = Number.NaN
      if (rule.offsets.length === 1) {
        into.micros = wallMicros - (rule.offsets[0] as number)
        return
      }
      const instants = [...new Set(rule.offsets)]
        .map((offset) => ({ at: wallMicros - offset, offset }))
        .filter(({ at, offset }) => offsetAt(at) === offset)
        .map(({ at }) => at)
        .sort((a, b) => a - b)
      into.micros = instants[0] ?? Number.NaN
      if (instants.length === 0) into.kind = 'skipped'
      if (instants.length > 1) {
        into.kind = 'repeated'
        into.secondMicros = instants[1] as number
      }
    },
  }
}

function offsetReader(zone: string): (utcMicros: number) => number {
  const format = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
    era: 'short',
  })
  return (utcMicros) => {
    const wholeMs = Math.floor(utcMicros / 1e6) * 1000
    const part: Record<string, number> = {}
    let era = 'AD'
    for (const { type, value } of format.formatToParts(wholeMs)) {
      if (type === 'era') era = value
      else part[type] = Number(value)
    }
    const wall = new Date(0)
    const year = part.year as number
    wall.setUTCFullYear(era.startsWith('B') ? 1 - year : year, (part.month as number) - 1, part.day as number)
    wall.setUTCHours(part.hour as number, part.minute as number, part.second as number)
    return (wall.getTime() - wholeMs) * 1000
  }
}
