import type { Words } from '../document.ts'
import { beforePoint, plainWords, runsOf } from '../keep-units.ts'
import type { NumberedTable } from '../numbered.ts'
import type { Pen, TextStyle } from './pen.ts'
import { shareBreadth } from './share-breadth.ts'
import { styles } from './sheet.ts'
import { linesOf } from './text-pieces.ts'

export const cellPadPoints = 4

export interface SetColumns {
  readonly style: TextStyle
  readonly widths: readonly number[]
  /** Of a column of numbers: from its left edge to the decimal point; null: it has none. */
  readonly pointAt: readonly (number | null)[]
}

/**
 * Breadths of a table's columns: as broad as what they hold where all find room, else words are broken where they may
 * be, then the type is made smaller, down to 6 points, and at last words are broken anywhere.
 */
export function setColumns(table: NumberedTable, roomPoints: number, pen: Pen): SetColumns {
  for (const sizePoints of [8, 7.5, 7, 6.5, 6]) {
    const style = { ...styles.table, sizePoints }
    const columns = table.columns.map((_, place) => measured(table, place, style, pen))
    const least = columns.reduce((sum, one) => sum + one.least, 0)
    if (least > roomPoints && sizePoints > 6) continue
    const wanted = columns.reduce((sum, one) => sum + one.wanted, 0)
    const widths =
      wanted <= roomPoints
        ? columns.map((one) => one.wanted * (1 + spareOf(roomPoints, wanted, columns.length) / wanted))
        : least > roomPoints
          ? columns.map((one) => (one.least / least) * roomPoints)
          : shareBreadth(columns, roomPoints)
    return {
      style,
      widths,
      pointAt: columns.map(({ before, after }, place) =>
        before === null ? null : pointOf(widths[place] ?? 0, before, after),
      ),
    }
  }
  throw new Error('A table has no type size.')
}

/** Broad tables fill the sheet; narrow ones stay narrow, so that rows are read across without a ruler. */
const spareOf = (room: number, wanted: number, columns: number) =>
  wanted > room * 0.5 ? room - wanted : Math.min(room - wanted, 14 * columns)

/** The numbers as a block stand at the right of their column, half the spare room away from its edge. */
const pointOf = (width: number, before: number, after: number) => {
  const spare = Math.max(0, width - 2 * cellPadPoints - before - after)
  return cellPadPoints + before + spare * 0.5
}

function measured(table: NumberedTable, place: number, style: TextStyle, pen: Pen) {
  const column = table.columns[place]
  const cells = table.rows.flatMap((row) => ('over' in row ? [] : [row[place] ?? '']))
  const width = (words: Words) => linesOf(words, style, Number.POSITIVE_INFINITY, pen)[0]?.widthPoints ?? 0
  const longest = (words: Words) =>
    Math.max(
      0,
      ...runsOf(words).flatMap(({ text, strong }) =>
        text
          .split(/ |(?<=\p{L}[-–—/])(?=\p{L})|(?<=\/)(?=[\p{L}\d])/u)
          .map((word) => pen.faces.of[strong ? 'bold' : style.face].widthPoints(word, style.sizePoints)),
      ),
    )
  const head: Words = [{ strong: column?.head ?? '' }]
  const unit = column?.unit ?? ''
  const decimal = column?.align === 'decimal'
  let [before, after] = [0, 0]
  if (decimal)
    for (const cell of cells) {
      const text = plainWords(cell)
      const integer = beforePoint(text)
      if (integer === null) continue
      const left = pen.faces.of.regular.widthPoints(integer, style.sizePoints)
      before = Math.max(before, left)
      after = Math.max(after, width(cell) - left)
    }
  const pads = 2 * cellPadPoints + 0.5
  const numbers = before + after
  const least = Math.max(longest(head), longest(unit), numbers, ...cells.map(longest)) + pads
  const wanted = Math.max(Math.min(width(head), 90), width(unit), numbers, ...cells.map(width)) + pads
  // A word longer than a third of the sheet is a key or an address: it may be broken.
  return {
    least: Math.min(least, 150),
    wanted: Math.max(wanted, Math.min(least, 150)),
    cells: cells.map(width),
    padding: pads,
    before: decimal ? before : null,
    after,
  }
}
