import type { SitePoint } from '../geometry/site-grid.ts'
import type { ValueGrid } from './value-grid.ts'

export interface GridContour {
  readonly level: number
  /** The lower side lies on the right. A closed line repeats its first point. */
  readonly points: readonly SitePoint[]
  /** False: both ends lie at the edge of what is shown. */
  readonly closed: boolean
}

/**
 * Level lines of a grid, linear along the sides of its squares (marching squares); a saddle is parted by the mean of
 * its four corners. A node exactly at a level counts as above it. Squares with a corner that is not shown carry no
 * line. Levels must rise.
 */
export function gridContours(grid: ValueGrid, levels: readonly number[]): readonly GridContour[] {
  const { columns, rows, values } = grid
  const { starts, squares } = squaresOfLevels(grid, levels)
  const nodes = columns * rows
  // A side is named by its south or west node, those that run northwards after all that run eastwards.
  const onward = new Int32Array(2 * nodes).fill(-1)
  const arrived = new Uint8Array(2 * nodes)
  const lines: GridContour[] = []
  for (let index = 0; index < levels.length; index++) {
    const level = levels[index] as number
    const from: number[] = []
    const step = (one: number, other: number) => {
      onward[one] = other
      arrived[other] = 1
      from.push(one)
    }
    for (let at = starts[index] as number; at < (starts[index + 1] as number); at++)
      crossSquare(values, squares[at] as number, columns, nodes, level, step)
    // Lines that begin at an edge first; what is then left closes.
    for (const open of [true, false])
      for (const side of from) {
        if (onward[side] === -1 || (open && arrived[side] === 1)) continue
        const points: SitePoint[] = [placeOnSide(grid, side, level)]
        for (let at = side; onward[at] !== -1; ) {
          const next = onward[at] as number
          onward[at] = -1
          at = next
          points.push(placeOnSide(grid, at, level))
        }
        lines.push({ level, points, closed: !open })
      }
    for (const at of from) arrived[at] = 0
    for (let at = starts[index] as number; at < (starts[index + 1] as number); at++) {
      const square = squares[at] as number
      for (const side of [square, square + columns, nodes + square, nodes + square + 1]) arrived[side] = 0
    }
  }
  return lines
}

/** For every level the squares that it passes, found in one walk over the grid. */
function squaresOfLevels({ columns, rows, values, mask }: ValueGrid, levels: readonly number[]) {
  const passed: number[][] = levels.map(() => [])
  for (let row = 0; row < rows - 1; row++)
    for (let column = 0; column < columns - 1; column++) {
      const sw = row * columns + column
      const nw = sw + columns
      const [a, b, c, d] = [values[sw], values[sw + 1], values[nw], values[nw + 1]] as [
        number,
        number,
        number,
        number,
      ]
      const low = Math.min(a, b, c, d)
      const high = Math.max(a, b, c, d)
      let at = firstAbove(levels, low)
      if (at === levels.length || (levels[at] as number) > high) continue
      if (mask[sw] || mask[sw + 1] || mask[nw] || mask[nw + 1]) continue
      for (; at < levels.length && (levels[at] as number) <= high; at++) passed[at]?.push(sw)
    }
  const starts = new Int32Array(levels.length + 1)
  passed.forEach((list, index) => {
    starts[index + 1] = (starts[index] as number) + list.length
  })
  const squares = new Int32Array(starts[levels.length] as number)
  passed.forEach((list, index) => {
    squares.set(list, starts[index] as number)
  })
  return { starts, squares }
}

/** The first level above a value. */
function firstAbove(levels: readonly number[], value: number): number {
  let [low, high] = [0, levels.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((levels[middle] as number) > value) high = middle
    else low = middle + 1
  }
  return low
}

function crossSquare(
  values: Float64Array,
  sw: number,
  columns: number,
  nodes: number,
  level: number,
  step: (from: number, to: number) => void,
): void {
  const [a, b, c, d] = [values[sw], values[sw + 1], values[sw + columns + 1], values[sw + columns]] as [
    number,
    number,
    number,
    number,
  ]
  const above = (a >= level ? 1 : 0) + (b >= level ? 2 : 0) + (c >= level ? 4 : 0) + (d >= level ? 8 : 0)
  if (above === 5 || above === 10) {
    const isHigh = (a + b + c + d) / 4 >= level
    const [first, second] = above === 5 ? saddles.rising : saddles.falling
    const [one, other] = isHigh ? first : second
    step(sideOf(one[0], sw, columns, nodes), sideOf(one[1], sw, columns, nodes))
    step(sideOf(other[0], sw, columns, nodes), sideOf(other[1], sw, columns, nodes))
    return
  }
  const way = ways[above]
  if (way) step(sideOf(way[0], sw, columns, nodes), sideOf(way[1], sw, columns, nodes))
}

type Way = readonly [from: number, to: number]

const [south, north, west, east] = [0, 1, 2, 3] as const

/** By which corners are above (south-west 1, south-east 2, north-east 4, north-west 8): from side to side, above on the left. */
const ways: readonly (Way | null)[] = [
  null,
  [south, west],
  [east, south],
  [east, west],
  [north, east],
  null,
  [north, south],
  [north, west],
  [west, north],
  [south, north],
  null,
  [east, north],
  [west, east],
  [south, east],
  [west, south],
  null,
]

/** Opposite corners above: first where the middle is above too, then where it is not. */
const saddles: Record<'rising' | 'falling', readonly [readonly [Way, Way], readonly [Way, Way]]> = {
  rising: [
    [
      [north, west],
      [south, east],
    ],
    [
      [south, west],
      [north, east],
    ],
  ],
  falling: [
    [
      [west, south],
      [east, north],
    ],
    [
      [east, south],
      [west, north],
    ],
  ],
}

function sideOf(side: number, sw: number, columns: number, nodes: number): number {
  if (side < 2) return side === south ? sw : sw + columns
  return side === west ? nodes + sw : nodes + sw + 1
}

function placeOnSide(
  { origin, cellMetres, columns, rows, values }: ValueGrid,
  side: number,
  level: number,
): SitePoint {
  const isNorthwards = side >= columns * rows
  const node = isNorthwards ? side - columns * rows : side
  const from = values[node] as number
  const share = (level - from) / ((values[isNorthwards ? node + columns : node + 1] as number) - from)
  const column = node % columns
  const row = (node - column) / columns
  return [
    origin[0] + (column + (isNorthwards ? 0 : share)) * cellMetres,
    origin[1] + (row + (isNorthwards ? share : 0)) * cellMetres,
  ]
}
