const weekdayNames = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun']

/** Weekdays of `mon-fri`, `sat;sun` or `fri-mon`, Monday 0 to Sunday 6; null where it cannot be read. */
export function parseWeekdays(text: string): ReadonlySet<number> | null {
  const days = new Set<number>()
  for (const part of text.toLowerCase().split(';')) {
    const [first, last, more] = part
      .trim()
      .split('-')
      .map((name) => weekdayNames.indexOf(name.trim()))
    if (first === undefined || more !== undefined || first < 0 || (last ?? 0) < 0) return null
    const end = last ?? first
    for (let day = first; ; day = (day + 1) % 7) {
      days.add(day)
      if (day === end) break
    }
  }
  return days
}

/** Minutes after midnight of `07:00`; null where it is none. 24:00 is written 00:00. */
export function parseTimeOfDay(text: string): number | null {
  const found = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(text.trim())
  return found ? Number(found[1]) * 60 + Number(found[2]) : null
}

/** Days since 1 January 1970 of `2027-12-25`; null where it is no date. */
export function parseDay(text: string): number | null {
  const atEpochMs = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : Number.NaN
  // 31 February is read as a day of March by some.
  return Number.isFinite(atEpochMs) && new Date(atEpochMs).toISOString().startsWith(text)
    ? atEpochMs / 86_400_000
    : null
}

/** Weekday of a day since 1 January 1970, a Thursday: Monday 0 to Sunday 6. */
export const weekdayOf = (day: number): number => (((day + 3) % 7) + 7) % 7
