import type { SurfaceMesh } from './settlement-surface.ts'

/** A line at a level, the lower side on its right. */
export interface LevelLine {
  /** East and north from the mesh's origin, alternating; a closed line repeats its first point. */
  readonly coordinates: readonly number[]
  /** False: both ends lie on the edge of the mesh. */
  readonly closed: boolean
  /** Where in `coordinates` it passes a node, the only places where lines of a level and the edge may touch. */
  readonly atNodes: readonly number[]
}

/**
 * For each level its lines through a mesh, cell by cell (marching squares, and triangles); a saddle is parted by the
 * mean of its four corners. A node exactly at a level counts as above it, so that every line ends on the edge or
 * closes. Levels must rise.
 */
export function levelLines(mesh: SurfaceMesh, levels: readonly number[]): readonly (readonly LevelLine[])[] {
  const { starts, passed } = cellsOfLevels(mesh, levels)
  // From a side to the corner whose side the line goes on to.
  const onward = new Int32Array(mesh.sideCount).fill(-1)
  const arrived = new Uint8Array(mesh.sideCount)
  return levels.map((level, index) => {
    const cells = passed.subarray(starts[index], starts[index + 1])
    const begun = markLevel(mesh, level, cells, onward, arrived)
    const lines: LevelLine[] = []
    // Lines that begin at an edge first; what is then left closes.
    for (const isOpen of [true, false])
      for (const corner of begun) {
        const side = mesh.sides[corner] as number
        if (onward[side] === -1 || (isOpen && arrived[side] === 1)) continue
        const { coordinates, atNodes } = follow(mesh, level, corner, onward)
        if (coordinates.length > 2) lines.push({ coordinates, closed: !isOpen, atNodes })
      }
    for (const cell of cells)
      for (let corner = cell; corner < cell + 4; corner++) arrived[mesh.sides[corner] as number] = 0
    return lines
  })
}

/** Marks from which side to which a level passes each cell; gives the corners whose sides it comes in by. */
function markLevel(
  { cells, valueMm, sides }: SurfaceMesh,
  level: number,
  passed: Uint32Array,
  onward: Int32Array,
  arrived: Uint8Array,
): Uint32Array {
  const begun = new Uint32Array(2 * passed.length)
  let count = 0
  const step = (from: number, to: number) => {
    onward[sides[from] as number] = to
    arrived[sides[to] as number] = 1
    begun[count++] = from
  }
  for (let at = 0; at < passed.length; at++) {
    const first = passed[at] as number
    const a = valueMm[cells[first] as number] as number
    const b = valueMm[cells[first + 1] as number] as number
    const c = valueMm[cells[first + 2] as number] as number
    const d = valueMm[cells[first + 3] as number] as number
    const [isA, isB, isC, isD] = [a >= level, b >= level, c >= level, d >= level]
    if (isA === isC && isB === isD && isA !== isB) {
      const down = isA ? 0 : 1
      const isHigh = (a + b + c + d) / 4 >= level
      step(first + down, first + (isHigh ? down + 1 : (down + 3) & 3))
      step(first + down + 2, first + (isHigh ? (down + 3) & 3 : down + 1))
      continue
    }
    const down = isA && !isB ? 0 : isB && !isC ? 1 : isC && !isD ? 2 : 3
    const up = !isA && isB ? 0 : !isB && isC ? 1 : !isC && isD ? 2 : 3
    step(first + down, first + up)
  }
  return begun.subarray(0, count)
}

function follow(mesh: SurfaceMesh, level: number, from: number, onward: Int32Array) {
  const line = { coordinates: [] as number[], atNodes: [] as number[] }
  pushCrossing(mesh, from, level, line)
  for (let side = mesh.sides[from] as number; onward[side] !== -1; ) {
    const corner = onward[side] as number
    onward[side] = -1
    pushCrossing(mesh, corner, level, line)
    side = mesh.sides[corner] as number
  }
  return line
}

/** Adds where the side of a corner passes a level, unless the line is there already. */
function pushCrossing(
  { cells, east, north, valueMm }: SurfaceMesh,
  corner: number,
  level: number,
  { coordinates, atNodes }: { readonly coordinates: number[]; readonly atNodes: number[] },
): void {
  const one = cells[corner] as number
  const other = cells[(corner & 3) === 3 ? corner - 3 : corner + 1] as number
  // The same numbers come out whichever way a side is walked.
  const a = Math.min(one, other)
  const b = Math.max(one, other)
  const share = shareAt(valueMm[a] as number, valueMm[b] as number, level)
  const e = between(east[a] as number, east[b] as number, share)
  const n = between(north[a] as number, north[b] as number, share)
  const { length } = coordinates
  if (length > 0 && coordinates[length - 2] === e && coordinates[length - 1] === n) return
  // A crossing beside a node may round to it.
  if ((east[a] === e && north[a] === n) || (east[b] === e && north[b] === n)) atNodes.push(length)
  coordinates.push(e, n)
}

/** Where a side passes a level, the numbers of the lines. */
export function crossing(
  { east, north, valueMm }: SurfaceMesh,
  one: number,
  other: number,
  level: number,
): readonly [number, number] {
  const [a, b] = [Math.min(one, other), Math.max(one, other)]
  const share = shareAt(valueMm[a] as number, valueMm[b] as number, level)
  return [
    between(east[a] as number, east[b] as number, share),
    between(north[a] as number, north[b] as number, share),
  ]
}

const shareAt = (from: number, to: number, level: number) => (level - from) / (to - from)

const between = (from: number, to: number, share: number) =>
  share <= 0 ? from : share >= 1 ? to : from + share * (to - from)

/** For every level the first corners of the cells that it passes, found in one walk over the mesh. */
function cellsOfLevels({ cells, valueMm }: SurfaceMesh, levels: readonly number[]) {
  const counts = new Uint32Array(levels.length + 1)
  const lows = new Uint16Array(cells.length / 4)
  const highs = new Uint16Array(cells.length / 4)
  for (let first = 0; first < cells.length; first += 4) {
    const a = valueMm[cells[first] as number] as number
    const b = valueMm[cells[first + 1] as number] as number
    const c = valueMm[cells[first + 2] as number] as number
    const d = valueMm[cells[first + 3] as number] as number
    const low = firstAbove(levels, Math.min(a, b, c, d))
    const top = Math.max(a, b, c, d)
    let high = low
    while (high < levels.length && (levels[high] as number) <= top) {
      counts[high + 1] = (counts[high + 1] as number) + 1
      high++
    }
    lows[first / 4] = low
    highs[first / 4] = high
  }
  for (let at = 1; at < counts.length; at++) counts[at] = (counts[at] as number) + (counts[at - 1] as number)
  const passed = new Uint32Array(counts[levels.length] as number)
  const next = counts.slice()
  for (let cell = 0; cell < lows.length; cell++)
    for (let level = lows[cell] as number; level < (highs[cell] as number); level++) {
      const at = next[level] as number
      passed[at] = 4 * cell
      next[level] = at + 1
    }
  return { starts: counts, passed }
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
