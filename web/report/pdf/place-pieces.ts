import type { Piece, PlacedPiece } from './piece.ts'
import type { Sheet } from './sheet.ts'

/**
 * Puts pieces on pages, column by column. What keeps its next stays with it as long as both have room in one column;
 * what is wide stands below the column that is begun, or on a page of its own turn.
 */
export function placePieces(pieces: readonly Piece[], sheet: Sheet): PlacedPiece[][] {
  const pages: PlacedPiece[][] = [[]]
  let column = 0
  /** Where columns begin on this page: below what is wide. */
  let head = sheet.top
  let y = sheet.top
  let first = true
  const newPage = () => {
    pages.push([])
    ;[column, head, y, first] = [0, sheet.top, sheet.top, true]
  }
  const nextColumn = () => {
    if (column + 1 >= sheet.columns.length) newPage()
    else [column, y, first] = [column + 1, head, true]
  }
  const put = (piece: Piece, wide: boolean) => {
    const { left } = wide ? sheet.whole : (sheet.columns[column] ?? sheet.whole)
    if (first && piece.again) {
      pages.at(-1)?.push({ piece: piece.again, x: left, y })
      y += piece.again.height
    }
    if (!first) y += piece.before
    pages.at(-1)?.push({ piece, x: left, y })
    y += piece.height
    first = false
  }
  for (const chain of chainsOf(pieces)) {
    const wide = chain.some((piece) => piece.wide)
    const needed = heightOf(chain)
    if (wide && sheet.columns.length > 1 && column > 0) newPage()
    const room = sheet.bottom - y
    if (!first && needed > room && (fits(chain, sheet) || (chain[0]?.height ?? 0) > room))
      wide ? newPage() : nextColumn()
    for (const piece of chain) {
      const again = first ? (piece.again?.height ?? 0) : 0
      if (!first && y + piece.before + piece.height + again > sheet.bottom + 0.01)
        wide ? newPage() : nextColumn()
      put(piece, wide)
    }
    // Columns begin again below what is wide.
    if (wide) head = y
    if (chain.at(-1)?.endsPage) newPage()
  }
  if (pages.at(-1)?.length === 0) pages.pop()
  return pages
}

/** Pieces that want to stand together, in order. */
function chainsOf(pieces: readonly Piece[]): Piece[][] {
  const chains: Piece[][] = []
  let open = false
  for (const piece of pieces) {
    const last = open ? chains.at(-1) : undefined
    if (last) last.push(piece)
    else chains.push([piece])
    open = piece.keepsNext
  }
  return chains
}

const heightOf = (chain: readonly Piece[]) =>
  chain.reduce(
    (sum, piece, place) => sum + piece.height + (place === 0 ? 0 : piece.before),
    chain[0]?.before ?? 0,
  )

const fits = (chain: readonly Piece[], sheet: Sheet) => heightOf(chain) <= sheet.bottom - sheet.top
