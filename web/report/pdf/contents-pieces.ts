import { keepUnits } from '../keep-units.ts'
import type { NumberedDocument } from '../numbered.ts'
import type { Pen, TextStyle } from './pen.ts'
import type { Piece } from './piece.ts'
import { inkSoft, styles } from './sheet.ts'
import { drawLines, leadingOf, linePieces, linesOf, type Setting } from './text-pieces.ts'

/** A shorter list stands in one column, whose headings need not be broken. */
const leastInTwoColumns = 20
const gutter = 20
const pageRoom = 20
const beforeHead = 24
const beforeList = 6

interface Entry {
  readonly height: number
  readonly draw: (pen: Pen, x: number, y: number) => void
}

/**
 * The list of contents: headings of two levels with their pages, each a link. A long one stands in two columns, read down
 * the left and then down the right; it is broken only where one page cannot hold it.
 */
export function contentsPieces({ statement, blocks }: NumberedDocument, setting: Setting): Piece[] {
  const { pen, root, column, sheet } = setting
  const headings = [...statement, ...blocks].flatMap((block) =>
    block.block === 'heading' && block.level < 3 ? [block] : [],
  )
  if (headings.length === 0) return []
  const style = styles.headings[0] as TextStyle
  const head = linePieces(linesOf('Contents', style, column.width, pen), style, pen.element('H1', root), {
    before: beforeHead,
    keepsNext: true,
    anchor: 'contents',
  })
  const columns = headings.length < leastInTwoColumns ? 1 : 2
  const breadth = (column.width - (columns - 1) * gutter) / columns
  const listed = pen.element('TOC', root)
  const entries = headings.map((heading) => entryOf(heading, breadth, columns, listed, setting))
  const headHeight = head.reduce((sum, { height }) => sum + height, 0) + beforeList
  const lists = onPages(entries, columns, sheet.bottom - sheet.top - headHeight)
  return [
    ...head,
    ...lists.map(
      (stacks, place): Piece => ({
        height: Math.max(...stacks.map(heightOf)),
        before: place === 0 ? beforeList : 0,
        keepsNext: false,
        wide: false,
        draw: (own, x, y) => {
          for (const [at, stack] of stacks.entries()) {
            let top = y
            for (const entry of stack) {
              entry.draw(own, x + at * (breadth + gutter), top)
              top += entry.height
            }
          }
        },
      }),
    ),
  ]
}

const heightOf = (entries: readonly Entry[]) => entries.reduce((sum, { height }) => sum + height, 0)

/** Entries in columns of even height, as many to a page as it holds. */
function onPages(entries: readonly Entry[], columns: number, most: number): readonly (readonly Entry[][])[] {
  const pages: Entry[][][] = []
  let rest = [...entries]
  while (rest.length > 0) {
    // A column ends with the entry that crosses its share: one entry's height more than even is needed at most.
    const even = heightOf(rest) / columns
    const page: Entry[][] = []
    for (let at = 0; at < columns && rest.length > 0; at++) {
      const taken: Entry[] = []
      while (rest[0] && (at === columns - 1 || heightOf(taken) < even)) {
        if (taken.length > 0 && heightOf(taken) + rest[0].height > most) break
        taken.push(rest[0])
        rest = rest.slice(1)
      }
      page.push(taken)
    }
    pages.push(page)
  }
  return pages
}

function entryOf(
  heading: {
    readonly level: number
    readonly number: string
    readonly text: string
    readonly anchor: string
  },
  breadth: number,
  columns: number,
  listed: Setting['root'],
  { pen, pageOf }: Setting,
): Entry {
  const entry = pen.element('TOCI', listed)
  const link = pen.element('Link', pen.element('Reference', entry))
  const isPart = heading.level === 1
  const size = columns > 1 ? styles.table.sizePoints : styles.body.sizePoints
  const own: TextStyle = { ...styles.body, sizePoints: size, face: isPart ? 'bold' : 'regular' }
  const indent = isPart ? 0 : columns > 1 ? 16 : 22
  const numberRoom = heading.number === '' ? 0 : isPart ? 18 : 30
  const text = indent + numberRoom
  const lines = linesOf(heading.text, own, breadth - text - pageRoom, pen)
  const above = isPart ? 3 : 0
  const leading = leadingOf(own) * (columns > 1 ? 0.93 : 1)
  return {
    height: above + lines.length * leading,
    draw: (drawing, x, y) => {
      const top = y + above
      const page = String(pageOf(heading.anchor))
      const widthOf = (words: string) => drawing.faces.of[own.face].widthPoints(words, own.sizePoints)
      const right = x + breadth
      const last = top + (lines.length - 1) * leading
      const baselineOf = (upper: number) => upper + leadingOf(own) / 2 + own.sizePoints * 0.36
      drawing.artifact()
      const from = x + text + (lines.at(-1)?.widthPoints ?? 0) + 5
      const until = right - widthOf(page) - 5
      if (until > from) drawing.leader(from, until, baselineOf(last), inkSoft)
      drawing.belongsTo(link)
      if (heading.number !== '') drawing.text(`${heading.number} `, x + indent, baselineOf(top), own)
      drawLines(drawing, lines, x + text, top, own, leading)
      drawing.text(` ${page}`, right - widthOf(page) - widthOf(' '), baselineOf(last), own)
      drawing.pdf.goTo(x + indent, top, breadth - indent, lines.length * leading, heading.anchor, {
        structParent: link,
        Contents: new String(`${keepUnits(heading.text)}, page ${page}`),
      })
    },
  }
}
