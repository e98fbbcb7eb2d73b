import type { Layout } from '#contract/layout.ts'
import { isNotFiniteText, parseNumber } from './parse-number.ts'
import { cellText, type ScannedRow } from './scanned-row.ts'

/** What a cell that holds no plain number is. */
export type OddCell =
  | { readonly kind: 'absent' }
  | {
      readonly kind: 'number-expected' | 'not-finite' | 'fault-code'
      readonly text: string
      readonly message: string
    }

export interface CellReader {
  /** The number in a cell; NaN when the cell must be looked at with `oddCell`. An empty cell is NaN too. */
  number(row: ScannedRow, cell: number): number
  oddCell(row: ScannedRow, cell: number): OddCell
  isAbsent(row: ScannedRow, cell: number): boolean
}

/** Reads value cells as a layout says. An empty cell is always "no reading", beside the texts that the layout lists. */
export function createCellReader(layout: Layout): CellReader {
  const mark = layout.decimalMark.charCodeAt(0)
  const absent = new Set(['', ...layout.absent.map((text) => text.trim())])
  const faultCodes = new Set(layout.faultCodes)
  // Numbers that need a second look: fault codes, and absent marks that are themselves numbers (-9999).
  const suspects = new Set(layout.faultCodes)
  for (const text of absent) {
    const bytes = new TextEncoder().encode(text)
    const value = parseNumber(bytes, 0, bytes.length, mark)
    if (Number.isFinite(value)) suspects.add(value)
  }
  const hasSuspects = suspects.size > 0
  const reader: CellReader = {
    number(row, cell) {
      const start = row.starts[cell] as number
      const end = row.ends[cell] as number
      if (start === end) return Number.NaN
      const value = parseNumber(row.bytes, start, end, mark)
      if (value - value !== 0 || (hasSuspects && suspects.has(value))) return Number.NaN
      return value
    },
    isAbsent(row, cell) {
      return row.starts[cell] === row.ends[cell] || absent.has(cellText(row, cell).trim())
    },
    oddCell(row, cell) {
      const text = cellText(row, cell)
      const shown = text.slice(0, 60)
      if (absent.has(text.trim())) return { kind: 'absent' }
      const value = parseNumber(row.bytes, row.starts[cell] as number, row.ends[cell] as number, mark)
      if (faultCodes.has(value)) {
        const message = `${shown} is the logger's own sign that it could not measure.`
        return { kind: 'fault-code', text, message }
      }
      if (Math.abs(value) === Number.POSITIVE_INFINITY || isNotFiniteText(text)) {
        const message = `"${shown}" is not a finite number. Look at the logger's input; if it means "no reading", list it in the layout.`
        return { kind: 'not-finite', text, message }
      }
      const message = `"${shown}" is not a number with ${layout.decimalMark === ',' ? 'a decimal comma' : 'a decimal point'}. If it means "no reading", list it in the layout.`
      return { kind: 'number-expected', text, message }
    },
  }
  return reader
}
