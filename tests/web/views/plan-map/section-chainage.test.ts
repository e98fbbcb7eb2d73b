import { expect, it } from 'vitest'
import { chainageMarks, lineLengthMetres } from '../../../../web/views/plan-map/section-chainage.ts'

const corners = [
  [0, 0],
  [30, 0],
  [30, 40],
] as const

it('measures along the line, round its corners', () => {
  expect(lineLengthMetres(corners)).toBe(70)
  expect(chainageMarks(corners, 20).map((mark) => [mark.chainageMetres, ...mark.at])).toEqual([
    [0, 0, 0],
    [20, 20, 0],
    [40, 30, 10],
    [60, 30, 30],
  ])
})

it('has nothing to mark on a line without corners', () => {
  expect(lineLengthMetres([])).toBe(0)
  expect(chainageMarks([[1, 1]], 10)).toEqual([])
})
