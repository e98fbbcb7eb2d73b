import type { Cell } from './delaunay-cells.ts'
import type { Triangulation } from './triangulation.ts'

/** A line that the surface must not cross, east and north from the origin of the triangulation. */
export type LocalLine = readonly (readonly [east: number, north: number])[]

export type CutReason = 'barrier' | 'long-side' | 'point-without-current-value'

/**
 * Why a cell must not be drawn; null where it may. A barrier that only touches a side does not cut: points on a wall
 * belong to both of its sides.
 */
export function reasonToCut(
  triangulation: Triangulation,
  cell: Cell,
  barriers: readonly LocalLine[],
  longestSideMetres: number,
  silent: LocalLine,
): CutReason | null {
  const { extentMetres } = triangulation
  const sides = sidesOf(triangulation, cell)
  if (sides.some(({ length }) => length > longestSideMetres)) return 'long-side'
  const slack = extentMetres * 1e-9
  for (const line of barriers)
    for (let index = 0; index + 1 < line.length; index++)
      if (passesThrough(sides, line[index] as Corner, line[index + 1] as Corner, slack)) return 'barrier'
  const isInside = ([e, n]: Corner) => sides.every((side) => inward(side, e, n) >= -slack)
  return silent.some(isInside) ? 'point-without-current-value' : null
}

type Corner = readonly [east: number, north: number]

interface Side {
  readonly e: number
  readonly n: number
  /** Unit vector along the side; the cell lies on its left. */
  readonly ue: number
  readonly un: number
  readonly length: number
}

function sidesOf({ east, north }: Triangulation, cell: Cell): readonly Side[] {
  return cell.map((from, index) => {
    const to = cell[(index + 1) % cell.length] as number
    const e = east[from] as number
    const n = north[from] as number
    const length = Math.hypot((east[to] as number) - e, (north[to] as number) - n)
    return { e, n, ue: ((east[to] as number) - e) / length, un: ((north[to] as number) - n) / length, length }
  })
}

/** Distance from a side towards the inside, metres. */
const inward = ({ e, n, ue, un }: Side, east: number, north: number) => ue * (north - n) - un * (east - e)

/** Clips the segment by every side (Liang & Barsky): something of it lies properly inside. */
function passesThrough(sides: readonly Side[], from: Corner, to: Corner, slack: number): boolean {
  let start = 0
  let end = 1
  for (const side of sides) {
    const a = inward(side, from[0], from[1]) - slack
    const b = inward(side, to[0], to[1]) - slack
    if (a <= 0 && b <= 0) return false
    if (a > 0 && b > 0) continue
    const crossing = a / (a - b)
    if (a < 0 || (a === 0 && b > 0)) start = Math.max(start, crossing)
    else end = Math.min(end, crossing)
  }
  return end > start
}
