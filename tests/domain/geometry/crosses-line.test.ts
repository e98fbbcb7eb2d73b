import { expect, test } from 'vitest'
import { crossesLine } from '#domain/geometry/crosses-line.ts'

const wall = [
  [0, 0],
  [10, 0],
  [10, 5],
] as const

test.each([
  ['across the first piece', [5, -1], [5, 1], true],
  ['beside it', [12, -1], [12, 8], false],
  ['across the second piece', [8, 3], [12, 3], true],
  ['touching its end', [0, 0], [0, 5], true],
  ['on one side', [1, 1], [9, 1], false],
  ['in line with it, beyond', [11, 0], [15, 0], false],
] as const)('%s', (_, from, to, crosses) => {
  expect(crossesLine(from, to, wall)).toBe(crosses)
  expect(crossesLine(to, from, wall)).toBe(crosses)
})
