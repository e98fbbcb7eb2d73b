import type { Issue } from '../outcome.ts'
import type { AnyTable, Columns, RowOf, Table } from './column.ts'
import { parseDelimitedText, type TextCell } from './delimited-text.ts'
import { nearestWord } from './nearest-word.ts'
import { type CellValue, readFileCell } from './read-cell.ts'

export interface PlacedRow<R> {
  readonly line: number
  readonly row: R
}

/** A row with at least one unreadable cell: as written, by heading. */
export interface UnsoundRow {
  readonly line: number
  readonly written: Readonly<Record<string, string>>
}

/** A cell that names a row of another table. */
export interface ReferenceMade {
  readonly to: string
  readonly name: string
  readonly line: number
  readonly column: string
}

export interface TableReading<R> {
  readonly file: string
  readonly sound: readonly PlacedRow<R>[]
  readonly unsound: readonly UnsoundRow[]
  /** Where the key is one heading: every name the table gives, sound rows or not, with its line. */
  readonly names: ReadonlyMap<string, number>
  readonly references: readonly ReferenceMade[]
  readonly issues: readonly Issue[]
}

/** Reads one table of a site folder; every fault is told, and every row that can be read is. */
export function readTable<T extends Columns>(table: Table<T>, content: string): TableReading<RowOf<T>>
export function readTable(table: AnyTable, content: string): TableReading<Record<string, CellValue>>
export function readTable(table: AnyTable, content: string): TableReading<Record<string, CellValue>> {
  const { rows, faults } = parseDelimitedText(content)
  const issues: Issue[] = faults.map((fault) => ({
    code: fault.code,
    file: table.file,
    line: fault.line,
    column: fault.column,
    message:
      fault.code === 'quote-unclosed'
        ? 'A quotation mark opens here and never closes. Close it, or double it if it belongs to the text.'
        : 'A quotation mark stands inside a cell. Put the whole cell in quotation marks and double this one.',
  }))
  const headings = readHeadings(table, rows[0], issues)
  const sound: PlacedRow<Record<string, CellValue>>[] = []
  const unsound: UnsoundRow[] = []
  const names = new Map<string, number>()
  const references: ReferenceMade[] = []
  const keyLines = new Map<string, number>()

  for (const cells of rows.slice(1)) {
    // Spreadsheets leave rows of bare commas at the end.
    if (cells.every((cell) => cell.text.trim() === '')) continue
    const line = cells[0]?.line ?? 0
    if (cells.length !== headings.length) {
      issues.push({
        code: 'cell-count',
        file: table.file,
        line,
        value: String(cells.length),
        expected: `${headings.length} cells`,
        message: `This row has ${cells.length} cells under ${headings.length} headings. Check its commas and quotation marks.`,
      })
    }
    const values: Record<string, CellValue> = {}
    const written: Record<string, string> = {}
    let readable = headings.length > 0 && cells.length === headings.length
    headings.forEach((heading, index) => {
      const column = heading === null ? undefined : table.columns[heading]
      const cell = cells[index]
      if (heading === null || !column || !cell) return
      written[heading] = cell.text.trim()
      const outcome = readFileCell(column, cell.text)
      if ('fault' in outcome) {
        readable = false
        issues.push({
          ...outcome.fault,
          file: table.file,
          line: cell.line,
          column: heading,
          value: cell.text,
        })
        return
      }
      values[heading] = outcome.value
      if (column.type === 'reference' && outcome.value !== null)
        references.push({ to: column.to, name: String(outcome.value), line: cell.line, column: heading })
    })
    // A column that may be left empty may be left out.
    for (const [heading, column] of Object.entries(table.columns))
      if (!column.required && !headings.includes(heading) && !(heading in values)) values[heading] = null
    const complete = Object.keys(table.columns).every((heading) => heading in values)
    noteKey(table, values, line, keyLines, names, issues)
    if (readable && complete) sound.push({ line, row: values })
    else unsound.push({ line, written })
  }
  return { file: table.file, sound, unsound, names, references, issues }
}

/** The heading of each column, null where it is unknown or a repeat. */
function readHeadings(
  table: AnyTable,
  row: readonly TextCell[] | undefined,
  issues: Issue[],
): readonly (string | null)[] {
  const known = Object.keys(table.columns)
  const expected = known.join(',')
  if (!row) {
    issues.push({
      code: 'file-empty',
      file: table.file,
      expected,
      message: `${table.file} is empty. Its first line must hold the headings: ${expected}.`,
    })
    return []
  }
  const seen = new Map<string, number>()
  const headings = row.map((cell) => {
    const heading = cell.text.trim()
    const place = { file: table.file, line: cell.line, column: heading || cell.column, value: cell.text }
    const first = seen.get(heading)
    if (first !== undefined) {
      issues.push({
        ...place,
        code: 'heading-repeated',
        expected: 'each heading once',
        message: `Heading "${heading}" stands in column ${first} and again in column ${cell.column}. Take one away.`,
      })
      return null
    }
    seen.set(heading, cell.column)
    if (known.includes(heading)) return heading
    const nearest = nearestWord(
      heading,
      known.filter((name) => !row.some((other) => other.text.trim() === name)),
    )
    issues.push({
      ...place,
      code: 'heading-unknown',
      expected,
      message: `Heading "${heading}" is not known in ${table.file}. ${nearest ? `Did you mean "${nearest}"?` : 'Take the column away.'}`,
    })
    return null
  })
  for (const heading of known) {
    if (seen.has(heading) || table.columns[heading]?.required === false) continue
    issues.push({
      code: 'heading-missing',
      file: table.file,
      line: row[0]?.line ?? 1,
      column: heading,
      expected,
      message: `Heading "${heading}" is missing. Add a column with ${table.columns[heading]?.means}.`,
    })
  }
  return headings
}

function noteKey(
  table: AnyTable,
  values: Readonly<Record<string, CellValue>>,
  line: number,
  keyLines: Map<string, number>,
  names: Map<string, number>,
  issues: Issue[],
): void {
  const parts = table.key.map((heading) => values[heading])
  if (parts.some((part) => part === undefined)) return
  const key = JSON.stringify(parts)
  const first = keyLines.get(key)
  if (first !== undefined) {
    issues.push({
      code: 'key-repeated',
      file: table.file,
      line,
      column: table.key.join(' + '),
      value: parts.join(', '),
      expected: 'each once',
      message: `"${parts.join(', ')}" already stands in line ${first}. Take one of the two rows away or rename it.`,
    })
    return
  }
  keyLines.set(key, line)
  if (parts.length === 1) names.set(String(parts[0]), line)
}
