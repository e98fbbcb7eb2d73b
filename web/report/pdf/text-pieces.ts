import type { Words } from '../document.ts'
import { runsOf } from '../keep-units.ts'
import type { NumberedBlock } from '../numbered.ts'
import { breakLines, type SetLine } from './break-lines.ts'
import type { Pen, TextStyle } from './pen.ts'
import type { Piece } from './piece.ts'
import { type Column, type Sheet, styles } from './sheet.ts'
import type { StructureElement } from './tagged-pdf.ts'

/** What pieces are made with. */
export interface Setting {
  readonly pen: Pen
  readonly sheet: Sheet
  readonly column: Column
  /** Element that the blocks hang from. */
  readonly root: StructureElement
  /** Page of an anchor, from 1: known once every piece is placed. */
  readonly pageOf: (anchor: string) => number
}

export const leadingOf = ({ sizePoints }: TextStyle): number => sizePoints * 1.42

/** Words broken into lines of a style; strong runs in its bold face. */
export function linesOf(words: Words, style: TextStyle, widthPoints: number, pen: Pen): SetLine[] {
  const runs = runsOf(words).map(({ text, strong }) => ({
    text,
    face: strong ? ('bold' as const) : style.face,
  }))
  return breakLines(runs, pen.faces, style.sizePoints, widthPoints)
}

/** Draws a line of set text with its upper edge at y. */
export function drawLine(pen: Pen, line: SetLine, x: number, y: number, style: TextStyle): void {
  const baseline = y + leadingOf(style) / 2 + style.sizePoints * 0.36
  for (const run of line.runs)
    if (run.text !== '') pen.text(run.text, x + run.at, baseline, { ...style, face: run.face })
}

/** Draws lines below each other, each as far from the left as `at` says. */
export function drawLines(
  pen: Pen,
  lines: readonly SetLine[],
  x: number,
  y: number,
  style: TextStyle,
  leading = leadingOf(style),
  at: (line: SetLine) => number = () => 0,
): void {
  for (const [place, line] of lines.entries()) drawLine(pen, line, x + at(line), y + place * leading, style)
}

interface LineRoom {
  readonly before: number
  readonly indent?: number
  readonly keepsNext?: boolean
  readonly anchor?: string
  /** Drawn with a line, its element already open: a list's sign, a box's ground. */
  readonly beside?: (pen: Pen, x: number, y: number, place: number, height: number) => void
}

/** Lines as pieces: never one alone at the foot or the head of a column. */
export function linePieces(
  lines: readonly SetLine[],
  style: TextStyle,
  element: StructureElement,
  { before, indent = 0, keepsNext = false, anchor, beside }: LineRoom,
): Piece[] {
  const height = leadingOf(style)
  return lines.map((line, place) => ({
    height,
    before: place === 0 ? before : 0,
    keepsNext:
      (place === lines.length - 1 && keepsNext) ||
      (lines.length > 1 && (place === 0 || place === lines.length - 2)),
    wide: false,
    ...(anchor !== undefined && place === 0 ? { anchor } : {}),
    draw: (pen, x, y) => {
      beside?.(pen, x, y, place, height)
      pen.belongsTo(element)
      drawLine(pen, line, x + indent, y, style)
    },
  }))
}

export function headingPieces(
  { level, text, number, anchor }: Extract<NumberedBlock, { block: 'heading' }>,
  { pen, root, column }: Setting,
): Piece[] {
  const style = styles.headings[level - 1] ?? styles.body
  const element = pen.element(`H${level}`, root)
  // Digits are alike in breadth: headings of a level begin below each other.
  const indent = number === '' ? 0 : 10 + pen.faces.of.bold.widthPoints(number, style.sizePoints)
  const lines = linesOf(text, style, column.width - indent, pen)
  const pieces = linePieces(lines, style, element, {
    before: [26, 17, 12][level - 1] ?? 10,
    indent,
    keepsNext: true,
    anchor,
    beside: (own, x, y, place) => {
      if (place > 0 || number === '') return
      own.belongsTo(element)
      own.text(`${number} `, x, y + leadingOf(style) / 2 + style.sizePoints * 0.36, style)
    },
  })
  return pieces.map((piece) => ({ ...piece, keepsNext: true }))
}

export function paragraphPieces(words: Words, { pen, root, column }: Setting): Piece[] {
  const element = pen.element('P', root)
  return linePieces(linesOf(words, styles.body, column.width, pen), styles.body, element, { before: 6 })
}

export function listPieces(
  { ordered, entries }: Extract<NumberedBlock, { block: 'list' }>,
  { pen, root, column }: Setting,
): Piece[] {
  const listed = pen.element('L', root)
  listed.dictionary.data.A = { O: 'List', ListNumbering: ordered ? 'Decimal' : 'Disc' }
  const indent = ordered ? 20 : 13
  return entries.flatMap((words, entry) => {
    const item = pen.element('LI', listed)
    const sign = pen.element('Lbl', item)
    const body = pen.element('LBody', item)
    return linePieces(linesOf(words, styles.body, column.width - indent, pen), styles.body, body, {
      before: entry === 0 ? 6 : 2.5,
      indent,
      beside: (own, x, y, place, height) => {
        if (place > 0) return
        own.belongsTo(sign)
        const baseline = y + height / 2 + styles.body.sizePoints * 0.36
        own.text(ordered ? `${entry + 1}.` : '•', x + (ordered ? 0 : 2), baseline, styles.body)
      },
    })
  })
}

/** A tinted box with a bar at its side; each line brings its own part of the ground, so it may run over a page. */
export function cautionPieces(
  { heading, words }: Extract<NumberedBlock, { block: 'caution' }>,
  { pen, root, column }: Setting,
): Piece[] {
  const [inset, pad] = [12, 7]
  const box = pen.element('Div', root)
  const ground = (own: Pen, x: number, y: number, height: number) => {
    own.artifact()
    own.ground(x, y - 0.4, column.width, height + 0.8, '#f8edcf')
    own.ground(x, y - 0.4, 3, height + 0.8, '#8a5a00')
  }
  const edge = (keepsNext: boolean, before: number): Piece => ({
    height: pad,
    before,
    keepsNext,
    wide: false,
    draw: (own, x, y) => ground(own, x, y, pad),
  })
  const room = column.width - 2 * inset
  const texts: readonly (readonly [Words, boolean])[] = [
    [[{ strong: heading }], true],
    ...words.map((one) => [one, false] as const),
  ]
  const pieces = texts.flatMap(([one, isHead]) => {
    const element = pen.element('P', box)
    return linePieces(linesOf(one, styles.body, room, pen), styles.body, element, {
      before: 0,
      indent: inset,
      keepsNext: isHead,
      beside: (own, x, y, _, height) => ground(own, x, y, height),
    })
  })
  const last = pieces.pop()
  return [
    edge(true, 10),
    ...pieces,
    ...(last ? [{ ...last, keepsNext: true }] : []),
    edge(false, 0),
    { height: 4, before: 0, keepsNext: false, wide: false, draw: () => {} },
  ]
}
