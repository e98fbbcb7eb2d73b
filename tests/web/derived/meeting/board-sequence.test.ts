import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  lastPage,
  nextPlace,
  placeBefore,
  placeWithin,
  rowPages,
} from '../../../../web/derived/meeting/board-sequence.ts'

describe('boards follow one another', () => {
  it('goes through the pages of a board before the next board', () => {
    const three = { boards: 3, pages: 2, around: false }
    expect(nextPlace({ board: 1, page: 1 }, three)).toEqual({ board: 1, page: 2 })
    expect(nextPlace({ board: 1, page: 2 }, three)).toEqual({ board: 2, page: 1 })
  })

  it('stays at the last by hand and begins again by itself', () => {
    const last = { board: 3, page: 1 }
    expect(nextPlace(last, { boards: 3, pages: 1, around: false })).toEqual(last)
    expect(nextPlace(last, { boards: 3, pages: 1, around: true })).toEqual({ board: 1, page: 1 })
  })

  it('goes back to the last page of the board before, and stays at the first', () => {
    expect(placeBefore({ board: 2, page: 2 })).toEqual({ board: 2, page: 1 })
    expect(placeBefore({ board: 2, page: 1 })).toEqual({ board: 1, page: lastPage })
    expect(placeBefore({ board: 1, page: 1 })).toEqual({ board: 1, page: 1 })
  })

  it('shows the last board of an address that asks for one beyond it', () => {
    expect(placeWithin({ board: 9, page: 4 }, 3)).toEqual({ board: 3, page: 1 })
    expect(placeWithin({ board: 2, page: 4 }, 3)).toEqual({ board: 2, page: 4 })
    expect(placeWithin({ board: 2, page: 1 }, 0)).toEqual({ board: 1, page: 1 })
  })
})

describe('rows on pages', () => {
  const rows = (heights: readonly number[], heads: readonly number[] = []) =>
    heights.map((heightPixels, place) => ({ heightPixels, heads: heads.includes(place) }))

  it('fills a page and goes on with the next', () => {
    expect(rowPages(rows([40, 40, 40, 40, 40]), 100)).toEqual([[0, 1], [2, 3], [4]])
  })

  it('takes what heads a row over to the page of the row', () => {
    expect(rowPages(rows([40, 20, 40], [1]), 80)).toEqual([[0], [1, 2]])
  })

  it('gives a row that is higher than a page one to itself', () => {
    expect(rowPages(rows([40, 400, 40]), 100)).toEqual([[0], [1], [2]])
  })

  it('has a page even without rows', () => {
    expect(rowPages([], 100)).toEqual([[]])
  })

  it('has every row on just one page, in order, whatever the heights', () => {
    const anyRow = fc.record({ heightPixels: fc.integer({ min: 1, max: 300 }), heads: fc.boolean() })
    fc.assert(
      fc.property(fc.array(anyRow, { maxLength: 60 }), fc.integer({ min: 1, max: 500 }), (list, room) => {
        const pages = rowPages(list, room)
        expect(pages.flat()).toEqual(list.map((_, place) => place))
        if (list.length > 0) expect(pages.every((page) => page.length > 0)).toBe(true)
        for (const page of pages) {
          const height = page.reduce((sum, row) => sum + (list[row]?.heightPixels ?? 0), 0)
          // More than the room only where a single row, with what heads it, leaves no choice.
          const single = page.slice(0, -1).every((row) => list[row]?.heads)
          expect(height <= room || single).toBe(true)
        }
      }),
      { seed: 7, numRuns: 300 },
    )
  })
})
