/** A place in a meeting on the wall, as the address bar keeps it. */
export interface WallAddress {
  /** Null: the first site there is. */
  readonly site: string | null
  readonly meeting: number
  /** From 1. */
  readonly board: number
  /** Of a board with more rows than fit; from 1. */
  readonly page: number
}

/** What an address says of a meeting on the wall; null: nothing, the page is a desk. */
export function readWallAddress(query: string): WallAddress | null {
  const given = new URLSearchParams(query)
  const meeting = count(given.get('meeting'))
  return meeting === null
    ? null
    : {
        site: given.get('site'),
        meeting,
        board: count(given.get('board')) ?? 1,
        page: count(given.get('page')) ?? 1,
      }
}

/** The query part of such an address, without `?`. */
export function writeWallAddress({ site, meeting, board, page }: WallAddress): string {
  const query = new URLSearchParams()
  if (site !== null) query.set('site', site)
  query.set('meeting', String(meeting))
  query.set('board', String(board))
  if (page > 1) query.set('page', String(page))
  return query.toString()
}

const count = (text: string | null): number | null =>
  text !== null && /^[1-9]\d{0,8}$/.test(text) ? Number(text) : null

/** Whether this page is the wall of a meeting: for its life, so that one map serves all boards. */
export const isOnWall = (): boolean => opened
const opened = readWallAddress(globalThis.location?.search ?? '') !== null
