/** Where a meeting stands: a board, and a page of it where its rows do not all fit. Both from 1. */
export interface BoardPlace {
  readonly board: number
  readonly page: number
}

/** Stands for the last page of a board of which it is not known yet how many it has. */
export const lastPage = Number.MAX_SAFE_INTEGER

/** The place after one: the next page, else the next board. After the last it stays, or begins again with `around`. */
export function nextPlace(
  { board, page }: BoardPlace,
  { boards, pages, around }: { readonly boards: number; readonly pages: number; readonly around: boolean },
): BoardPlace {
  if (page < pages) return { board, page: page + 1 }
  if (board < boards) return { board: board + 1, page: 1 }
  return around ? { board: 1, page: 1 } : { board, page }
}

/** The place before one: the page before, else the last page of the board before. Before the first it stays. */
export function placeBefore({ board, page }: BoardPlace): BoardPlace {
  if (page > 1) return { board, page: page - 1 }
  return board > 1 ? { board: board - 1, page: lastPage } : { board, page }
}

/** The nearest place that there is, of one that an address asks for. */
export const placeWithin = ({ board, page }: BoardPlace, boards: number): BoardPlace =>
  board > boards ? { board: Math.max(1, boards), page: 1 } : { board, page }

/**
 * Which rows stand on which page, when each has a height and a page gives so much room. A row that heads others is
 * not the last of a page; a row higher than a page has one to itself. Every row is on just one page.
 */
export function rowPages(
  rows: readonly { readonly heightPixels: number; readonly heads: boolean }[],
  roomPixels: number,
): readonly (readonly number[])[] {
  const pages: number[][] = []
  let page: number[] = []
  let used = 0
  rows.forEach(({ heightPixels }, row) => {
    if (page.length > 0 && used + heightPixels > roomPixels) {
      // What heads the row goes over with it, but never leaves an empty page behind.
      const heading: number[] = []
      while (page.length > 1 && rows[page.at(-1) ?? 0]?.heads) heading.unshift(page.pop() as number)
      pages.push(page)
      page = heading
      used = heading.reduce((sum, one) => sum + (rows[one]?.heightPixels ?? 0), 0)
    }
    page.push(row)
    used += heightPixels
  })
  if (page.length > 0 || pages.length === 0) pages.push(page)
  return pages
}
