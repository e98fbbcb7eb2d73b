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
 * For each level its lines through a mesh (marching triangles). A node exactly at a level counts as above it, so that
 * every line ends on the edge or closes. Levels must rise.
 */
export function levelLines(mesh: SurfaceMesh, levels: readonly number[]): readonly (readonly LevelLine[])[] {
  const { starts, passed } = trianglesOfLevels(mesh, levels)
  // From a side to the corner whose side the line goes on to.
  const onward = new Int32Array(mesh.sideCount).fill(-1)
  const arrived = new Uint8Array(mesh.sideCount)
  return levels.map((level, index) => {
    const triangles = passed.subarray(starts[index], starts[index + 1])
    const begun = markLevel(mesh, level, triangles, onward, arrived)
    const lines: LevelLine[] = []
    // Lines that begin at an edge first; what is then left closes.
    for (const isOpen of [true, false])
      for (const corner of begun) {
        const side = mesh.sides[corner] as number
        if (onward[side] === -1 || (isOpen && arrived[side] === 1)) continue
        const { coordinates, atNodes } = follow(mesh, level, corner, onward)
        if (coordinates.length > 2) lines.push({ coordinates, closed: !isOpen, atNodes })
      }
    for (const triangle of triangles)
      for (let corner = triangle; corner < triangle + 3; corner++) arrived[mesh.sides[corner] as number] = 0
    return lines
  })
}

/** Marks from which side to which a level passes each triangle; gives the corners whose sides it comes in by. */
function markLevel(
  { triangles, valueMm, sides }: SurfaceMesh,
  level: number,
  passed: Uint32Array,
  onward: Int32Array,
  arrived: Uint8Array,
): Uint32Array {
  const begun = new Uint32Array(passed.length)
  for (let at = 0; at < passed.length; at++) {
    const first = passed[at] as number
    const a = (valueMm[triangles[first] as number] as number) >= level
    const b = (valueMm[triangles[first + 1] as number] as number) >= level
    const c = (valueMm[triangles[first + 2] as number] as number) >= level
    const down = first + (a && !b ? 0 : b && !c ? 1 : 2)
    const up = first + (!a && b ? 0 : !b && c ? 1 : 2)
    onward[sides[down] as number] = up
    arrived[sides[up] as number] = 1
    begun[at] = down
  }
  return begun
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
  { triangles, east, north, valueMm }: SurfaceMesh,
  corner: number,
  level: number,
  { coordinates, atNodes }: { readonly coordinates: number[]; readonly atNodes: number[] },
): void {
  const one = triangles[corner] as number
  const other = triangles[corner % 3 === 2 ? corner - 2 : corner + 1] as number
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

/** For every level the first corners of the triangles that it passes, found in one walk over the mesh. */
function trianglesOfLevels({ triangles, valueMm }: SurfaceMesh, levels: readonly number[]) {
  const counts = new Uint32Array(levels.length + 1)
  const lows = new Uint16Array(triangles.length / 3)
  const highs = new Uint16Array(triangles.length / 3)
  for (let first = 0; first < triangles.length; first += 3) {
    const a = valueMm[triangles[first] as number] as number
    const b = valueMm[triangles[first + 1] as number] as number
    const c = valueMm[triangles[first + 2] as number] as number
    const low = firstAbove(levels, Math.min(a, b, c))
    const top = Math.max(a, b, c)
    let high = low
    while (high < levels.length && (levels[high] as number) <= top) {
      counts[high + 1] = (counts[high + 1] as number) + 1
      high++
    }
    lows[first / 3] = low
    highs[first / 3] = high
  }
  for (let at = 1; at < counts.length; at++) counts[at] = (counts[at] as number) + (counts[at - 1] as number)
  const passed = new Uint32Array(counts[levels.length] as number)
  const next = counts.slice()
  for (let triangle = 0; triangle < lows.length; triangle++)
    for (let level = lows[triangle] as number; level < (highs[triangle] as number); level++) {
      const at = next[level] as number
      passed[at] = 3 * triangle
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
