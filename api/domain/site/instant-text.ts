const pattern =
  /^(\d{4})-(\d{2})-(\d{2})[Tt ](\d{2}):(\d{2}):(\d{2})(?:\.(\d{1,3}))?(?:([Zz])|([+-])(\d{2}):(\d{2}))$/

/**
 * UTC epoch milliseconds of an RFC 3339 date-time with its offset; null where it is not one, or names
 * a day or time that does not exist. Finer than a millisecond is refused, not rounded.
 */
export function parseInstant(text: string): number | null {
  const found = pattern.exec(text)
  if (!found) return null
  const [year, month, day, hour, minute, second] = found.slice(1, 7).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null
  if (hour > 23 || minute > 59 || second > 59) return null
  const offsetHours = Number(found[10] ?? 0)
  const offsetMinutes = Number(found[11] ?? 0)
  if (offsetHours > 23 || offsetMinutes > 59) return null
  const milliseconds = Number((found[7] ?? '').padEnd(3, '0'))
  const local = new Date(0)
  local.setUTCFullYear(year, month - 1, day)
  local.setUTCHours(hour, minute, second, milliseconds)
  const sign = found[9] === '-' ? -1 : 1
  return local.getTime() - sign * (offsetHours * 60 + offsetMinutes) * 60_000
}

/** RFC 3339 in UTC, to the second where nothing finer is known. Years 0000 to 9999. */
export function formatInstant(epochMs: number): string {
  return new Date(epochMs).toISOString().replace('.000Z', 'Z')
}

function daysInMonth(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] as number
}
