import type { ReportDocument } from '../document.ts'
import { type NumberedBlock, numbered } from '../numbered.ts'
import { contentsPieces } from './contents-pieces.ts'
import { figurePairPiece, figurePiece } from './figure-pieces.ts'
import { titlePieces } from './front-pieces.ts'
import { drawMargins, drawWatermark } from './margins.ts'
import { openPdf } from './open-pdf.ts'
import { drawOutline } from './outline.ts'
import { createPen } from './pen.ts'
import type { Piece } from './piece.ts'
import { placePieces } from './place-pieces.ts'
import { sheetOf } from './sheet.ts'
import { tablePieces } from './table-pieces.ts'
import { cautionPieces, headingPieces, listPieces, paragraphPieces, type Setting } from './text-pieces.ts'
import { type NotInFont, openTypefaces, type ReportFonts } from './typeface.ts'

export interface WrittenPdf {
  readonly bytes: Uint8Array
  readonly pages: number
  /** Characters that the fonts have no glyph for: they are printed by their names, as in [U+4E2D]. */
  readonly notInFont: readonly NotInFont[]
}

/**
 * Writes a report as a tagged PDF 1.7 whose texts are texts and whose figures are outlines. The same report with the
 * same fonts is the same bytes, in a browser and in Node.
 */
export function writePdf(document: ReportDocument, fonts: ReportFonts): WrittenPdf {
  const steps = writePdfSteps(document, fonts)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** The same in steps of a page, so that a browser stays awake between them; yields the share that is done, 0 to 1. */
export function* writePdfSteps(document: ReportDocument, fonts: ReportFonts): Generator<number, WrittenPdf> {
  const { pdf, close } = openPdf(document)
  const faces = openTypefaces(pdf, fonts)
  const pen = createPen(pdf, faces)
  const sheet = sheetOf(document.paper)
  const root = pdf.struct('Document')
  pdf.addStructure(root)
  const pageOfAnchor = new Map<string, number>()
  const column = sheet.columns[0] ?? sheet.whole
  const setting: Setting = {
    pen,
    sheet,
    column,
    root,
    pageOf: (anchor) => pageOfAnchor.get(anchor) ?? 0,
  }
  const parts = numbered(document)
  const pieces = endingPages([
    ...titlePieces(document, setting),
    ...parts.statement.flatMap((block) => blockPieces(block, setting)),
    ...contentsPieces(parts, setting),
    pageEnd,
    ...parts.blocks.flatMap((block) => blockPieces(block, setting)),
  ])
  const pages = placePieces(pieces, sheet)
  pages.forEach((placed, place) => {
    for (const { piece } of placed)
      if (piece.anchor !== undefined && !pageOfAnchor.has(piece.anchor))
        pageOfAnchor.set(piece.anchor, place + 1)
  })
  const outline = drawOutline(pdf, parts)
  for (const [place, placed] of pages.entries()) {
    pdf.addPage({ size: [sheet.width, sheet.height], margin: 0 })
    if (document.facts.watermark !== null) drawWatermark(pen, sheet, document.facts.watermark)
    drawMargins(pen, sheet, document.facts, place + 1, pages.length)
    for (const { piece, x, y } of placed) {
      if (piece.anchor !== undefined) {
        pdf.addNamedDestination(piece.anchor, 'XYZ', null, Math.max(0, y - 10), null)
        outline(piece.anchor, y)
      }
      piece.draw(pen, x, y)
    }
    pen.closePage()
    yield (place + 1) / pages.length
  }
  return { bytes: close(), pages: pages.length, notInFont: faces.notInFont }
}

const pageEnd: Piece = {
  height: 0,
  before: 0,
  keepsNext: false,
  wide: false,
  endsPage: true,
  draw: () => {},
}

/** The end of a page belongs to the piece before it; two in a row are one. */
function endingPages(pieces: readonly Piece[]): Piece[] {
  const kept: Piece[] = []
  for (const piece of pieces) {
    const last = kept.at(-1)
    if (piece !== pageEnd) kept.push(piece)
    else if (last) kept[kept.length - 1] = { ...last, keepsNext: false, endsPage: true }
  }
  return kept
}

function blockPieces(block: NumberedBlock, setting: Setting): Piece[] {
  switch (block.block) {
    case 'heading':
      return headingPieces(block, setting)
    case 'paragraph':
      return paragraphPieces(block.words, setting)
    case 'list':
      return listPieces(block, setting)
    case 'table':
      return tablePieces(block, setting)
    case 'figure':
      return [figurePiece(block, setting)]
    case 'figure-pair':
      return [figurePairPiece(block.figures, setting)]
    case 'caution':
      return cautionPieces(block, setting)
    case 'page-break':
      return [pageEnd]
  }
}
