import type { SitePoint } from '../geometry/site-grid.ts'
import { firstAbove } from './first-above.ts'
import { crossingOf } from './mesh-crossing.ts'
import { meshSides } from './mesh-sides.ts'
import type { SurfaceMesh } from './settlement-surface.ts'

export interface LevelLine {
  /** The lower side lies on the right. A closed line repeats its first point. */
  readonly points: readonly SitePoint[]
  /** False: both ends lie on the edge of the mesh. */
  readonly closed: boolean
  /** Whether it passes exactly through a node, where it may touch another line. */
  readonly meetsNode: boolean
}

/**
 * Level lines of a mesh, for each level its own (marching triangles). A node exactly at a level counts as above it. A
 * triangle's piece runs from one of its sides to another, and each side is met at most twice, so lines follow from side
 * to side without looking for places. Levels must rise.
 */
export function levelLines(mesh: SurfaceMesh, levels: readonly number[]): readonly (readonly LevelLine[])[] {
  const { triangles, valueMm } = mesh
  const { starts, passed } = trianglesOfLevels(mesh, levels)
  const { ids, count } = meshSides(mesh)
  const onward = new Int32Array(count).fill(-1)
  const arrived = new Uint8Array(count)
  const atNode = new Uint8Array(count)
  const [east, north] = [new Float64Array(count), new Float64Array(count)]
  const cross = (side: number, a: number, b: number, level: number) => {
    const [e, n] = crossingOf(mesh, a, b, level)
    east[side] = e
    north[side] = n
    atNode[side] = valueMm[a] === level || valueMm[b] === level ? 1 : 0
  }
  return levels.map((level, index) => {
    const from: number[] = []
    for (let at = starts[index] as number; at < (starts[index + 1] as number); at++) {
      const first = passed[at] as number
      let [down, up] = [-1, -1]
      for (let corner = 0; corner < 3; corner++) {
        const isAbove = (valueMm[triangles[first + corner] as number] as number) >= level
        const nextAbove = (valueMm[triangles[first + ((corner + 1) % 3)] as number] as number) >= level
        if (isAbove && !nextAbove) down = corner
        if (!isAbove && nextAbove) up = corner
      }
      if (down < 0) continue
      const [one, other] = [ids[first + down] as number, ids[first + up] as number]
      cross(one, triangles[first + down] as number, triangles[first + ((down + 1) % 3)] as number, level)
      cross(other, triangles[first + up] as number, triangles[first + ((up + 1) % 3)] as number, level)
      onward[one] = other
      arrived[other] = 1
      from.push(one)
    }
    const lines: LevelLine[] = []
    // Lines that begin at the edge first; what is then left closes.
    for (const open of [true, false])
      for (const side of from) {
        if (onward[side] === -1 || (open && arrived[side] === 1)) continue
        let last: SitePoint = [east[side] as number, north[side] as number]
        const points = [last]
        let meetsNode = atNode[side] === 1
        for (let at = side; onward[at] !== -1; ) {
          const next = onward[at] as number
          onward[at] = -1
          arrived[next] = 0
          at = next
          meetsNode ||= atNode[at] === 1
          if (east[at] === last[0] && north[at] === last[1]) continue
          last = [east[at] as number, north[at] as number]
          points.push(last)
        }
        if (points.length > 1) lines.push({ points, closed: !open, meetsNode })
      }
    return lines
  })
}

/** For every level the triangles that it passes, by their first corner, found in one walk over the mesh. */
function trianglesOfLevels({ triangles, valueMm }: SurfaceMesh, levels: readonly number[]) {
  const starts = new Int32Array(levels.length + 1)
  const each = (visit: (level: number, first: number) => void) => {
    for (let first = 0; first < triangles.length; first += 3) {
      const a = valueMm[triangles[first] as number] as number
      const b = valueMm[triangles[first + 1] as number] as number
      const c = valueMm[triangles[first + 2] as number] as number
      const low = Math.min(a, b, c)
      const high = Math.max(a, b, c)
      for (let at = firstAbove(levels, low); at < levels.length && (levels[at] as number) <= high; at++)
        visit(at, first)
    }
  }
  each((level) => {
    starts[level + 1] = (starts[level + 1] as number) + 1
  })
  for (let level = 0; level < levels.length; level++)
    starts[level + 1] = (starts[level + 1] as number) + (starts[level] as number)
  const passed = new Int32Array(starts[levels.length] as number)
  const filled = starts.slice()
  each((level, first) => {
    passed[filled[level] as number] = first
    filled[level] = (filled[level] as number) + 1
  })
  return { starts, passed }
}
