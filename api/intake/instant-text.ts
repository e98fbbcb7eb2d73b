/** RFC 3339 in UTC; a plain count where the calendar of `Date` ends. */
export function instantText(micros: number): string {
  const date = new Date(micros / 1000)
  return Number.isNaN(date.getTime()) ? `${micros} µs since 1970` : date.toISOString().replace('.000Z', 'Z')
}
