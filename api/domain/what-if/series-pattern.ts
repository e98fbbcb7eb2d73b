/**
 * What series a change is of: one id, or a pattern with one `*` for any text, such as every settlement point or all
 * segments of a string (`IP-02-*` + `/inclination-a`).
 */
export type SeriesPattern = string

/** What `*` stands for where a pattern means a series, the whole id where it has none; null: it does not mean it. */
export function starOf(pattern: SeriesPattern, series: string): string | null {
  const star = pattern.indexOf('*')
  if (star < 0) return pattern === series ? series : null
  const [before, after] = [pattern.slice(0, star), pattern.slice(star + 1)]
  const long = series.length >= before.length + after.length
  return long && series.startsWith(before) && series.endsWith(after)
    ? series.slice(before.length, series.length - after.length)
    : null
}

/** True where a pattern means a series. */
export const isMeant = (pattern: SeriesPattern, series: string): boolean => starOf(pattern, series) !== null
