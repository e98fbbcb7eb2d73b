import type { ReportDocument } from '../document.ts'
import { factLines } from '../fact-lines.ts'
import { keepUnits } from '../keep-units.ts'
import type { NumberedDocument } from '../numbered.ts'
import type { TextStyle } from './pen.ts'
import type { Piece } from './piece.ts'
import { accent, hairline, inkSoft, styles } from './sheet.ts'
import { drawLine, drawLines, leadingOf, linePieces, linesOf, type Setting } from './text-pieces.ts'

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

/** The list of contents: headings of two levels with their pages, each a link. */
export function contentsPieces({ statement, blocks }: NumberedDocument, setting: Setting): Piece[] {
  const { pen, root, column, pageOf } = setting
  const headings = [...statement, ...blocks].flatMap((block) =>
    block.block === 'heading' && block.level < 3 ? [block] : [],
  )
  if (headings.length === 0) return []
  const style = styles.headings[0] as TextStyle
  const head = linePieces(linesOf('Contents', style, column.width, pen), style, pen.element('H1', root), {
    before: 24,
    keepsNext: true,
    anchor: 'contents',
  })
  const listed = pen.element('TOC', root)
  const entries = headings.map((heading, place): Piece => {
    const entry = pen.element('TOCI', listed)
    const link = pen.element('Link', pen.element('Reference', entry))
    const own: TextStyle = heading.level === 1 ? { ...styles.body, face: 'bold' } : styles.body
    const indent = heading.level === 1 ? 0 : 22
    const numberRoom = heading.level === 1 ? 22 : 30
    const [line] = linesOf(heading.text, own, column.width - indent - numberRoom - 36, pen)
    const height = leadingOf(own) + (heading.level === 1 ? 3 : 0)
    return {
      height,
      before: place === 0 ? 6 : 0,
      keepsNext: place === 0,
      wide: false,
      draw: (drawing, x, y) => {
        const top = y + (heading.level === 1 ? 3 : 0)
        const page = String(pageOf(heading.anchor))
        const pageWidth = drawing.faces.of[own.face].widthPoints(page, own.sizePoints)
        const baseline = top + leadingOf(own) / 2 + own.sizePoints * 0.36
        drawing.artifact()
        const from = x + indent + (heading.number === '' ? 0 : numberRoom) + (line?.widthPoints ?? 0) + 5
        const until = x + column.width - pageWidth - 5
        if (until > from) drawing.leader(from, until, baseline, inkSoft)
        drawing.belongsTo(link)
        if (heading.number !== '') drawing.text(`${heading.number} `, x + indent, baseline, own)
        if (line) drawLine(drawing, line, x + indent + (heading.number === '' ? 0 : numberRoom), top, own)
        drawing.text(
          ` ${page}`,
          x + column.width - pageWidth - drawing.faces.of[own.face].widthPoints(' ', own.sizePoints),
          baseline,
          own,
        )
        drawing.pdf.goTo(x + indent, top, column.width - indent, leadingOf(own), heading.anchor, {
          structParent: link,
          Contents: new String(`${keepUnits(heading.text)}, page ${page}`),
        })
      },
    }
  })
  return [...head, ...entries]
}
