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
  const weekdays = parseWeekdays(shift.weekdays)
  const begins = parseTimeOfDay(shift.fromTime)
  const ends = parseTimeOfDay(shift.untilTime)
  if (weekdays === null || begins === null || ends === null) return []
  const days = new Set(
    holidays.filter(({ zone }) => zone === null || zone === shift.zone).map(({ date }) => parseDay(date)),
  )
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
