import type { Layout } from '#contract/layout.ts'
import { type FileHead, type HeadRow, looksLikeUtf16, rowsOfHead } from './read-head.ts'

/** How a head divides into rows of one width, as far as can be told. */
export interface GuessedTable {
  readonly encoding: Layout['encoding']
  readonly delimiter: Layout['delimiter']
  readonly rows: readonly HeadRow[]
  /** Number of cells of most rows. */
  readonly width: number
  readonly doubts: readonly string[]
}

const delimiters = [';', '\t', '|', ',', ' '] as const

/**
 * Guesses encoding and delimiter: the delimiter under which most rows have the same number of cells and
 * most cells are whole numbers, times or plain words. Null when no delimiter makes a table of the file.
 */
export function guessTable(head: FileHead): GuessedTable | null {
  const doubts: string[] = []
  const encoding = guessEncoding(head, doubts)
  let best: { delimiter: Layout['delimiter']; rows: HeadRow[]; width: number; score: number } | null = null
  for (const delimiter of delimiters) {
    const rows = rowsOfHead(head, encoding, delimiter)
    const width = commonestWidth(rows)
    if (width < 2) continue
    const body = rows.filter(({ cells }) => cells.length === width)
    const cells = body.flatMap((row) => row.cells)
    const clean = cells.filter((cell) => isWhole(cell)).length / cells.length
    const score = (body.length / rows.length) * clean ** 2 * (delimiter === ' ' ? 0.8 : 1)
    if (best === null || score > best.score) best = { delimiter, rows, width, score }
  }
  if (best === null || best.score < 0.2) return null
  if (best.score < 0.7)
    doubts.push(
      'The rows do not all have the same number of cells, or many cells are neither number nor time: check the delimiter.',
    )
  return { encoding, delimiter: best.delimiter, rows: best.rows, width: best.width, doubts }
}

/** Decimal mark of the table's numbers. */
export function guessDecimalMark(
  table: GuessedTable,
  body: readonly HeadRow[],
  doubts: string[],
): Layout['decimalMark'] {
  if (table.delimiter === ',') return '.'
  const cells = body.flatMap((row) => row.cells)
  const commas = cells.filter((cell) => /^[+-]?\d+,\d+$/.test(cell)).length
  const points = cells.filter((cell) => /^[+-]?\d+\.\d+$/.test(cell)).length
  if (commas === 0 && points === 0)
    doubts.push('No number has decimals, so the decimal mark is assumed to be a point.')
  if (commas > 0 && points > 0)
    doubts.push('Some numbers have a decimal comma and some a decimal point; the commoner one is proposed.')
  return commas > points ? ',' : '.'
}

export const isNumberText = (text: string): boolean =>
  /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i.test(text)

function isWhole(cell: string): boolean {
  return (
    cell === '' ||
    isNumberText(cell) ||
    /^[\dTZ:/. +-]{6,35}$/.test(cell) ||
    /^[\p{L}\d _.:()/°%²#[\]-]{1,40}$/u.test(cell)
  )
}

function guessEncoding({ bytes }: FileHead, doubts: string[]): Layout['encoding'] {
  if (looksLikeUtf16(bytes)) return 'utf-16le'
  // The head may end within a character.
  for (let cut = 0; cut < 4; cut++) {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, bytes.length - cut))
      return 'utf-8'
    } catch {}
  }
  doubts.push('The text is not UTF-8; windows-1252 is assumed. Check signs such as ° and µ.')
  return 'windows-1252'
}

function commonestWidth(rows: readonly HeadRow[]): number {
  const counts = new Map<number, number>()
  for (const { cells } of rows) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1)
  let best = 0
  for (const [width, count] of counts) if (count > (counts.get(best) ?? 0)) best = width
  return best
}
