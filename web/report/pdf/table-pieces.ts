import type { TableRow, Words } from '../document.ts'
import { beforePoint, plainWords } from '../keep-units.ts'
import type { NumberedTable } from '../numbered.ts'
import type { SetLine } from './break-lines.ts'
import type { Pen, TextStyle } from './pen.ts'
import type { Piece } from './piece.ts'
import { hairline, ink, styles } from './sheet.ts'
import { cellPadPoints, type SetColumns, setColumns } from './table-widths.ts'
import type { StructureElement } from './tagged-pdf.ts'
import { drawLines, leadingOf, linePieces, linesOf, type Setting } from './text-pieces.ts'

/** A table: its caption above it, its head again on every page that it runs over, its notes below. */
export function tablePieces(table: NumberedTable, setting: Setting): Piece[] {
  const { pen, root, sheet } = setting
  const wide = table.wide === true
  const width = wide ? sheet.whole.width : setting.column.width
  const columns = setColumns(table, width, pen)
  const total = columns.widths.reduce((sum, one) => sum + one, 0)
  const element = pen.element('Table', root)
  const caption = pen.element('Caption', element)
  const captionLines = linesOf(
    [{ strong: `Table ${table.number}. ` }, table.caption],
    styles.caption,
    width,
    pen,
  )
  const head = headPiece(table, columns, total, pen.element('TR', pen.element('THead', element)), pen)
  const again = againPiece(table, head, width, pen)
  const body = pen.element('TBody', element)
  const rows = table.rows.flatMap((row, place) =>
    rowPieces(row, table, columns, total, pen.element('TR', body), setting).map((piece) => ({
      ...piece,
      again,
      keepsNext: piece.keepsNext || place === 0 || place === table.rows.length - 2,
    })),
  )
  const last = rows.at(-1)
  const notes = (table.notes ?? []).flatMap((note, place) =>
    linePieces(linesOf(note, styles.note, width, pen), styles.note, pen.element('P', root), {
      before: place === 0 ? 3 : 1,
    }),
  )
  if (last) rows[rows.length - 1] = { ...last, keepsNext: notes.length > 0 }
  return [
    ...linePieces(captionLines, styles.caption, caption, {
      before: 12,
      keepsNext: true,
      anchor: table.anchor,
    }).map((piece) => ({ ...piece, keepsNext: true })),
    { ...head, keepsNext: true },
    ...rows,
    ...notes,
    { height: 8, before: 0, keepsNext: false, wide: false, draw: () => {} },
  ].map((piece) => ({ ...piece, wide }))
}

interface CellLines {
  readonly lines: readonly SetLine[]
  readonly element: StructureElement
  readonly at: (line: SetLine) => number
}

function headPiece(
  table: NumberedTable,
  columns: SetColumns,
  total: number,
  row: StructureElement,
  pen: Pen,
): Piece {
  const style: TextStyle = { ...columns.style, face: 'bold' }
  const cells = table.columns.map(({ head, unit, align }, place): CellLines => {
    const width = (columns.widths[place] ?? 0) - 2 * cellPadPoints
    const element = pen.element('TH', row)
    element.dictionary.data.A = { O: 'Table', Scope: 'Column' }
    const lines = [
      ...linesOf([{ strong: head }], style, width, pen),
      ...(unit ? linesOf(unit, columns.style, width, pen) : []),
    ]
    const centred = align === 'decimal' || align === 'centre'
    return {
      lines,
      element,
      at: (line) => cellPadPoints + (centred ? Math.max(0, (width - line.widthPoints) / 2) : 0),
    }
  })
  const most = Math.max(1, ...cells.map(({ lines }) => lines.length))
  const leading = leadingOf(style) * 0.92
  const height = most * leading + 7
  return {
    height,
    before: 4,
    keepsNext: true,
    wide: false,
    draw: (own, x, y) => {
      own.artifact()
      own.rule(x, y, x + total, y, 1, ink)
      own.rule(x, y + height, x + total, y + height, 0.6, ink)
      let left = x
      cells.forEach(({ lines, element, at }, place) => {
        own.belongsTo(element)
        // Heads stand on the rule below them.
        const top = y + 3.5 + (most - lines.length) * leading
        drawLines(own, lines, left, top - 0.4, style, leading, at)
        left += columns.widths[place] ?? 0
      })
    },
  }
}

/** The head again where a table goes on: seen, but told once to who hears it. */
function againPiece(table: NumberedTable, head: Piece, width: number, pen: Pen): Piece {
  const lines = linesOf([{ strong: `Table ${table.number} ` }, 'continued'], styles.caption, width, pen)
  const height = lines.length * leadingOf(styles.caption)
  const silent = (own: Pen): Pen => ({ ...own, belongsTo: () => own.artifact() })
  return {
    ...head,
    height: height + 4 + head.height,
    draw: (own, x, y) => {
      own.artifact()
      drawLines(own, lines, x, y, styles.caption)
      head.draw(silent(own), x, y + height + 4)
      own.closePage()
    },
  }
}

function rowPieces(
  row: TableRow,
  table: NumberedTable,
  columns: SetColumns,
  total: number,
  element: StructureElement,
  { pen, sheet }: Setting,
): Piece[] {
  if ('over' in row) return [overPiece(row.over, columns, total, element, table.columns.length, pen)]
  const headers = table.columns.map(({ rowHeader }) => rowHeader === true)
  if (!headers.includes(true)) headers[0] = true
  const cells = table.columns.map((column, place): CellLines => {
    const words: Words = row[place] ?? ''
    const cell = pen.element(headers[place] ? 'TH' : 'TD', element)
    if (headers[place]) cell.dictionary.data.A = { O: 'Table', Scope: 'Row' }
    const width = (columns.widths[place] ?? 0) - 2 * cellPadPoints
    const lines = linesOf(words, columns.style, width, pen)
    const point = columns.pointAt[place]
    const integer = point == null ? null : beforePoint(plainWords(words))
    const before =
      integer === null ? null : pen.faces.of.regular.widthPoints(integer, columns.style.sizePoints)
    return {
      lines,
      element: cell,
      at: (line) => {
        if (point != null && before !== null && lines.length === 1) return point - before
        const centred = column.align === 'decimal' || column.align === 'centre'
        return cellPadPoints + (centred ? Math.max(0, (width - line.widthPoints) / 2) : 0)
      },
    }
  })
  const leading = leadingOf(columns.style) * 0.92
  const lineCount = Math.max(1, ...cells.map(({ lines }) => lines.length))
  // A row higher than half a sheet is cut between lines: it would leave half a page empty, or find no page at all.
  const most = Math.max(4, Math.floor((sheet.bottom - sheet.top) / 2 / leading))
  const parts = Math.ceil(lineCount / most)
  return Array.from({ length: parts }, (_, part): Piece => {
    const count = Math.min(most, lineCount - part * most)
    const [above, below] = [part === 0 ? 2 : 0, part === parts - 1 ? 2 : 0]
    const height = count * leading + above + below
    return {
      height,
      before: 0,
      keepsNext: false,
      wide: false,
      draw: (own, x, y) => {
        if (part === parts - 1) {
          own.artifact()
          own.rule(x, y + height, x + total, y + height, 0.4, hairline)
        }
        let left = x
        cells.forEach(({ lines, element: cell, at }, place) => {
          const shown = lines.slice(part * most, part * most + count)
          own.belongsTo(cell)
          drawLines(own, shown, left, y + above - 0.4, columns.style, leading, at)
          left += columns.widths[place] ?? 0
        })
      },
    }
  })
}

/** Words over all columns that head the rows below them. */
function overPiece(
  words: string,
  columns: SetColumns,
  total: number,
  row: StructureElement,
  count: number,
  pen: Pen,
): Piece {
  const element = pen.element('TH', row)
  element.dictionary.data.A = { O: 'Table', Scope: 'Column', ColSpan: count }
  const style: TextStyle = { ...columns.style, face: 'bold' }
  const lines = linesOf([{ strong: words }], style, total - 2 * cellPadPoints, pen)
  const leading = leadingOf(style) * 0.92
  const height = lines.length * leading + 6
  return {
    height,
    before: 0,
    keepsNext: true,
    wide: false,
    draw: (own, x, y) => {
      own.artifact()
      own.ground(x, y + 0.3, total, height - 0.3, '#f1eee5')
      own.rule(x, y + height, x + total, y + height, 0.4, hairline)
      own.belongsTo(element)
      drawLines(own, lines, x + cellPadPoints, y + 2.6, style, leading)
    },
  }
}
