import type { ReportDocument } from '../document.ts'
import { factLines } from '../fact-lines.ts'
import type { TextStyle } from './pen.ts'
import type { Piece } from './piece.ts'
import { accent, hairline, inkSoft, styles } from './sheet.ts'
import { drawLines, leadingOf, linePieces, linesOf, type Setting } from './text-pieces.ts'

const siteStyle: TextStyle = { face: 'regular', sizePoints: 14, colour: inkSoft }
const factName: TextStyle = { face: 'bold', sizePoints: 9, colour: inkSoft }
const factValue: TextStyle = { ...styles.body, sizePoints: 9 }

/** Site, title and facts: the head of the first page, the statement follows below. */
export function titlePieces(document: ReportDocument, { pen, root, column }: Setting): Piece[] {
  const facts = pen.element('Table', root)
  const names = factLines(document).flatMap(({ name, value }, place): Piece[] => {
    const row = pen.element('TR', facts)
    const [header, cell] = [pen.element('TH', row), pen.element('TD', row)]
    header.dictionary.data.A = { O: 'Table', Scope: 'Row' }
    const lines = linesOf(value, factValue, column.width - 110, pen)
    const height = lines.length * leadingOf(factValue) + 3
    return [
      {
        height,
        before: place === 0 ? 16 : 0,
        keepsNext: true,
        wide: false,
        draw: (own, x, y) => {
          own.artifact()
          own.rule(x, y, x + column.width, y, 0.4, hairline)
          own.belongsTo(header)
          drawLines(own, linesOf([{ strong: name }], factName, 104, own), x, y + 1.5, factName)
          own.belongsTo(cell)
          drawLines(own, lines, x + 110, y + 1.5, factValue)
        },
      },
    ]
  })
  const bar: Piece = {
    height: 10,
    before: 0,
    keepsNext: true,
    wide: false,
    draw: (own, x, y) => {
      own.artifact()
      own.ground(x, y, 56, 3, accent)
    },
  }
  const title = linesOf(document.title, styles.title, column.width, pen)
  const site = linesOf(document.facts.site, siteStyle, column.width, pen)
  return [
    bar,
    ...linePieces(site, siteStyle, pen.element('P', root), { before: 0, keepsNext: true }),
    ...linePieces(title, styles.title, pen.element('P', root), { before: 0, keepsNext: true }),
    ...names,
    {
      height: 6,
      before: 0,
      keepsNext: false,
      wide: false,
      draw: (own, x, y) => {
        own.artifact()
        own.rule(x, y, x + column.width, y, 0.4, hairline)
      },
    },
  ]
}
