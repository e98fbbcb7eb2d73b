import { markNote, marksOf } from '#domain/flags/reading-checks.ts'

/**
 * What the automatic checks marked of late, from an answer to `markedDays`. Days without readings are told apart from
 * days without marks: nothing was looked at on them.
 */
export function markedSentence(
  columns: { readonly rows: number; number(name: string): ArrayLike<number> },
  made: boolean,
): string {
  const column = (name: string, row: number) => columns.number(name)[row] ?? 0
  const rows = Array.from({ length: columns.rows }, (_, row) => ({
    within: column('within', row),
    read: column('read', row),
    marked: column('marked', row),
    flags: column('flags', row),
  })).sort((one, other) => one.within - other.within)
  const parts = rows.map(({ within, read, marked }) =>
    read === 0
      ? `In the last ${within} days there were no readings to check.`
      : `In the last ${within} days automatic checks marked something on ${marked} of ${read} days with readings.`,
  )
  const what = marksOf(rows.at(-1)?.flags ?? 0).map(markNote)
  const marks = what.length > 0 ? ` Marked: ${what.join('; ')}.` : ''
  const of = made ? ' They look at the readings that it is made from.' : ''
  return `${parts.join(' ')}${marks}${of} A mark takes no reading away and lowers no level; no mark does not mean that a reading is right.`
}
