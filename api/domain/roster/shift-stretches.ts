import type { DutyShift, Holiday } from '../site/tables.ts'
import { parseDay, parseTimeOfDay, parseWeekdays, weekdayOf } from './shift-times.ts'
import { firstInstantShowing, wallReading } from './wall-clock.ts'

/** One turn of a shift: from inclusive, until exclusive. */
export interface ShiftStretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/**
 * The turns of a shift that touch a stretch of time, whole, in order. Weekday and holiday are those of the day on which
 * a turn begins, on the calendar of the shift's zone: the night from Friday to Saturday is Friday's. A turn is cut to
 * the shift's validity. A shift whose times cannot be read has none.
 */
export function shiftStretches(
  shift: DutyShift,
  holidays: readonly Holiday[],
  fromEpochMs: number,
  untilEpochMs: number,
): readonly ShiftStretch[] {
  const times = timesOf(shift)
  if (times === null) return []
  const { weekdays, begins, ends } = times
  const days = holidayDays(holidays, shift.zone)
  const last = wallReading(untilEpochMs, shift.zone).day
  const stretches: ShiftStretch[] = []
  for (let day = wallReading(fromEpochMs, shift.zone).day - 1; day <= last; day++) {
    if (!weekdays.has(weekdayOf(day))) continue
    if (shift.onHolidays !== 'as-usual' && days.has(day) !== (shift.onHolidays === 'only')) continue
    const from = Math.max(shift.validFrom, firstInstantShowing(day, begins, shift.zone))
    const until = Math.min(
      shift.validUntil ?? Number.POSITIVE_INFINITY,
      firstInstantShowing(ends > begins ? day : day + 1, ends, shift.zone),
    )
    if (until > from && until > fromEpochMs && from < untilEpochMs)
      stretches.push({ fromEpochMs: from, untilEpochMs: until })
  }
  return stretches
}

interface ShiftTimes {
  readonly weekdays: ReadonlySet<number>
  readonly begins: number
  readonly ends: number
}

// Rows are never changed in place, and a roster is asked for the same ones over and over.
const knownTimes = new WeakMap<DutyShift, ShiftTimes | null>()
const knownHolidays = new WeakMap<readonly Holiday[], Map<string, ReadonlySet<number | null>>>()

function timesOf(shift: DutyShift): ShiftTimes | null {
  const found = knownTimes.get(shift)
  if (found !== undefined) return found
  const weekdays = parseWeekdays(shift.weekdays)
  const begins = parseTimeOfDay(shift.fromTime)
  const ends = parseTimeOfDay(shift.untilTime)
  const times = weekdays === null || begins === null || ends === null ? null : { weekdays, begins, ends }
  knownTimes.set(shift, times)
  return times
}

function holidayDays(holidays: readonly Holiday[], zone: string): ReadonlySet<number | null> {
  const zones = knownHolidays.get(holidays) ?? new Map<string, ReadonlySet<number | null>>()
  knownHolidays.set(holidays, zones)
  const found = zones.get(zone)
  if (found) return found
  const days = new Set(
    holidays.filter((day) => day.zone === null || day.zone === zone).map(({ date }) => parseDay(date)),
  )
  zones.set(zone, days)
  return days
}
