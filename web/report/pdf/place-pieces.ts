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
  /** Goes on until there is room, or the column is a whole empty one. */
  const makeRoom = (height: number, { before, again }: Piece, wide: boolean) => {
    while (
      y + (first ? (again?.height ?? 0) : before) + height > sheet.bottom + 0.01 &&
      !(first && y === sheet.top)
    )
      wide ? newPage() : nextColumn()
  }
  for (const chain of chainsOf(pieces)) {
    const wide = chain.some((piece) => piece.wide)
    if (wide && column > 0) newPage()
    const height = heightOf(chain)
    if (chain[0] && height <= sheet.bottom - sheet.top) makeRoom(height, chain[0], wide)
    for (const piece of chain) {
      makeRoom(piece.height, piece, wide)
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

/** But for the room above the first. */
const heightOf = (chain: readonly Piece[]) =>
  chain.reduce((sum, piece, place) => sum + piece.height + (place === 0 ? 0 : piece.before), 0)
