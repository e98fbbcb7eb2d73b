import type { Pen } from './pen.ts'

/** What a page is made of: a line, a row or a drawing, never broken. */
export interface Piece {
  readonly height: number
  /** Room above it, left out at the head of a column. */
  readonly before: number
  /** It never stands last on a page: the next piece follows in the same column. */
  readonly keepsNext: boolean
  /** Over all columns of the sheet. */
  readonly wide: boolean
  readonly draw: (pen: Pen, x: number, y: number) => void
  /** Drawn again above it when it comes first in a column: the head of a table that goes on. */
  readonly again?: Piece
  /** By which links and the list of contents find its page. */
  readonly anchor?: string
  /** The next piece begins a new page. */
  readonly endsPage?: boolean
}

/** A piece at its place. */
export interface PlacedPiece {
  readonly piece: Piece
  readonly x: number
  readonly y: number
}
