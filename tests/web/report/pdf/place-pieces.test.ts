import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Piece } from '../../../../web/report/pdf/piece.ts'
import { placePieces } from '../../../../web/report/pdf/place-pieces.ts'
import { sheetOf } from '../../../../web/report/pdf/sheet.ts'

const piece = (height: number, changes: Partial<Piece> = {}): Piece => ({
  height,
  before: 5,
  keepsNext: false,
  wide: false,
  draw: () => {},
  ...changes,
})

const anyPieces = fc.array(
  fc
    .record({
      height: fc.integer({ min: 1, max: 500 }),
      before: fc.integer({ min: 0, max: 30 }),
      keepsNext: fc.boolean(),
      wide: fc.boolean(),
      endsPage: fc.constantFrom(false, false, false, true),
    })
    .map((made) => piece(made.height, made)),
  { minLength: 1, maxLength: 60 },
)

describe.each(['A4', 'A3'] as const)('on %s', (paper) => {
  const sheet = sheetOf(paper)
  test('every piece is placed once, in its order, within the sheet and over no other', () => {
    fc.assert(
      fc.property(anyPieces, (pieces) => {
        const pages = placePieces(pieces, sheet)
        expect(pages.flat().map((placed) => placed.piece)).toEqual(pieces)
        for (const page of pages) {
          for (const { piece: one, y } of page) {
            expect(y).toBeGreaterThanOrEqual(sheet.top)
            expect(y + one.height).toBeLessThanOrEqual(sheet.bottom + 0.02)
          }
          page.forEach((one, place) => {
            for (const other of page.slice(place + 1)) {
              const beside = one.x !== other.x && !one.piece.wide && !other.piece.wide
              const apart = beside || other.y >= one.y + one.piece.height - 0.01
              // A narrow piece may stand beside a chain that is wide as a whole.
              if (one.x === other.x) expect(apart).toBe(true)
            }
          })
        }
      }),
      { seed: 7, numRuns: 300 },
    )
  })
  test('what keeps its next stands in one column with it', () => {
    const room = sheet.bottom - sheet.top
    for (const height of [room - 70, room - 40, room - 20]) {
      const pages = placePieces([piece(height), piece(20, { keepsNext: true }), piece(40)], sheet)
      const places = pages.flatMap((page, number) => page.map(({ x, piece: one }) => ({ number, x, one })))
      const [heading, text] = places.slice(1)
      expect([heading?.number, heading?.x]).toEqual([text?.number, text?.x])
    }
  })
  test('the head of a table comes again where its rows go on', () => {
    const again = piece(30)
    const pages = placePieces(
      Array.from({ length: 100 }, () => piece(20, { again, before: 0 })),
      sheet,
    )
    const columns = pages.flatMap((page) => [...new Set(page.map(({ x }) => x))]).length
    expect(pages.flat().filter((placed) => placed.piece === again)).toHaveLength(columns)
  })
})

test('A3 has two columns, filled from the left; what is wide takes both', () => {
  const sheet = sheetOf('A3')
  const [left, right] = sheet.columns
  const room = sheet.bottom - sheet.top
  const [page] = placePieces([piece(room - 10), piece(room - 10)], sheet)
  expect(page?.map(({ x }) => x)).toEqual([left?.left, right?.left])
  const withWide = placePieces([piece(100), piece(200, { wide: true }), piece(room - 350), piece(50)], sheet)
  const below = sheet.top + 100 + 5 + 200
  expect(withWide[0]?.slice(2).map(({ x, y }) => [x, y])).toEqual([
    [left?.left, below + 5],
    [right?.left, below],
  ])
})
