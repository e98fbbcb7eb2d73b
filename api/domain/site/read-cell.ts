import type { Column } from './column.ts'
import { parseInstant } from './instant-text.ts'
import { nearestWord } from './nearest-word.ts'

export type CellValue = string | number | boolean | null

/** A fault of one cell, not yet knowing its place. */
export interface CellFault {
  readonly code: string
  readonly message: string
  readonly expected: string
}

export type CellOutcome = { readonly value: CellValue } | { readonly fault: CellFault }

/**
 * The value of a cell under its column's rule. Spaces at both ends do not count; an empty optional cell
 * is null.
 */
export function readCell(column: Column, written: string): CellOutcome {
  const text = written.trim()
  if (text === '') {
    if (!column.required) return { value: null }
    return fault('cell-empty', `This cell must not be empty. Give ${column.means}.`, expectation(column))
  }
  switch (column.type) {
    case 'text':
    case 'reference':
      return { value: text }
    case 'number':
      return readNumber(column, text)
    case 'instant':
      return readInstant(column, text)
    case 'flag':
      if (text === 'yes' || text === 'no') return { value: text === 'yes' }
      return fault('flag-expected', `"${text}" is neither yes nor no. Write yes or no.`, expectation(column))
    case 'choice': {
      if (column.of.includes(text)) return { value: text }
      const nearest = nearestWord(text, column.of)
      const hint = nearest ? `Did you mean "${nearest}"?` : `Use one of: ${column.of.join(', ')}.`
      return fault('choice-unknown', `"${text}" is not in the list. ${hint}`, expectation(column))
    }
  }
}

/**
 * What a spreadsheet may take for a formula at the start of a cell: as OWASP lists them, with the wide forms that some
 * keyboards write, and the null character of ASVS 5.0, 1.2.10.
 */
const formulaStart = '[=+\\-@＝＋－＠\\t\\r\\n\\0]'
const guarded = new RegExp(`^\\s*'+${formulaStart}`)
const dangerous = new RegExp(`^'*${formulaStart}`)

/**
 * The value of a cell of a CSV file: as `readCell`, but one apostrophe before what begins a formula is dropped.
 * `guardFormula` puts it there, so that a spreadsheet does not take the text for a formula.
 */
export function readFileCell(column: Column, written: string): CellOutcome {
  const isText = column.type === 'text' || column.type === 'reference'
  return readCell(column, isText && guarded.test(written) ? written.replace("'", '') : written)
}

/** A text as a CSV cell that no spreadsheet runs as a formula; `readFileCell` undoes it. */
export function guardFormula(text: string): string {
  return dangerous.test(text) ? `'${text}` : text
}

/** What a column takes, in words. */
export function expectation(column: Column): string {
  switch (column.type) {
    case 'text':
      return column.means
    case 'reference':
      return `${column.means}, as named in ${column.to}`
    case 'number': {
      const kind = column.whole ? 'whole number' : 'number with a decimal point'
      if (column.min !== undefined && column.max !== undefined)
        return `${kind} from ${column.min} to ${column.max}`
      if (column.min !== undefined) return `${kind} of at least ${column.min}`
      if (column.max !== undefined) return `${kind} of at most ${column.max}`
      return kind
    }
    case 'instant':
      return 'date and time with offset, such as 2027-03-14T08:00:00Z or 2027-03-14T08:00:00-01:00'
    case 'flag':
      return 'yes or no'
    case 'choice':
      return `one of: ${column.of.join(', ')}`
  }
}

function readNumber(column: Extract<Column, { type: 'number' }>, text: string): CellOutcome {
  const expected = expectation(column)
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text)) {
    const hint = /^[+-]?\d+,\d+$/.test(text) ? ' Use a decimal point, not a comma.' : ''
    return fault('number-expected', `"${text}" is not a number. Give ${column.means}.${hint}`, expected)
  }
  const value = Number(text)
  if (!Number.isFinite(value))
    return fault('not-finite', `"${text}" is too large to be kept as a number. Check its exponent.`, expected)
  if (column.whole && !Number.isInteger(value))
    return fault('whole-number-expected', `"${text}" is not a whole number. Give ${column.means}.`, expected)
  const low = column.min ?? Number.NEGATIVE_INFINITY
  const high = column.max ?? Number.POSITIVE_INFINITY
  if (value < low || value > high)
    return fault('out-of-range', `${text} is out of range for ${column.means}. Give a ${expected}.`, expected)
  return { value: value === 0 ? 0 : value }
}

function readInstant(column: Column, text: string): CellOutcome {
  const expected = expectation(column)
  const value = parseInstant(text)
  if (value !== null) return { value }
  const withoutOffset = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/.test(text)
  if (withoutOffset)
    return fault(
      'offset-missing',
      `"${text}" does not say its offset from UTC. Add Z or an offset.`,
      expected,
    )
  return fault('instant-expected', `"${text}" is not an instant that exists. Give a ${expected}.`, expected)
}

function fault(code: string, message: string, expected: string): CellOutcome {
  return { fault: { code, message, expected } }
}
