import { cellText, type ScannedRow } from './scanned-row.ts'

/** The headings of a names row; empty ones at its end, which a last delimiter makes, are left out. */
export function headingsOf(row: ScannedRow): string[] {
  const headings = Array.from({ length: row.count }, (_, cell) => cellText(row, cell).trim())
  while (headings.length > 1 && headings[headings.length - 1] === '') headings.pop()
  return headings
}

/** Whether a row among the readings is the names row again: at least half of its filled cells are known headings. */
export function looksLikeNames(row: ScannedRow, names: readonly string[]): boolean {
  const filled = headingsOf(row).filter((heading) => heading !== '')
  const known = filled.filter((heading) => names.includes(heading)).length
  return known >= 1 && known * 2 >= filled.length
}

/** What changed from one names row to the next, in words; at most six changes and a count of the rest. */
export function movedNames(before: readonly string[], after: readonly string[]): string[] {
  const changes: string[] = []
  for (const [i, name] of before.entries()) {
    const now = after.indexOf(name)
    if (now < 0) changes.push(`"${name.slice(0, 40)}" is gone`)
    else if (now !== i && before.indexOf(name) === i)
      changes.push(`"${name.slice(0, 40)}" is now column ${now + 1}, was ${i + 1}`)
  }
  for (const name of after) if (!before.includes(name)) changes.push(`"${name.slice(0, 40)}" is new`)
  return changes.length > 6 ? [...changes.slice(0, 6), `${changes.length - 6} more`] : changes
}
