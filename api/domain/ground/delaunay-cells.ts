import type { Triangulation } from './triangulation.ts'

/** Places around a cell, counter-clockwise: three, or more where they lie on one circle. */
export type Cell = readonly number[]

/** Distance from the circle, as a share of the common side, up to which a place counts as on it. */
const onCircle = 1e-3

/**
 * Cells of a Delaunay triangulation. Four or more places on one circle (the corners of a rectangle, say) could be
 * cut into triangles in several ways, and rounding would choose; they are kept together as one cell, so that a
 * symmetric layout stays symmetric and a millimetre of survey does not turn a ridge.
 */
export function delaunayCells(triangulation: Triangulation): readonly Cell[] {
  const { triangles, halfedges } = triangulation
  const group = Array.from({ length: triangles.length / 3 }, (_, triangle) => triangle)
  const rootOf = (triangle: number): number => {
    let root = triangle
    while (group[root] !== root) root = group[root] as number
    return root
  }
  const drawn = withoutSlivers(triangulation)
  for (const [side, across] of halfedges.entries())
    if (
      across > side &&
      drawn[Math.floor(side / 3)] &&
      drawn[Math.floor(across / 3)] &&
      isOneCircle(triangulation, side, across)
    )
      group[rootOf(Math.floor(across / 3))] = rootOf(Math.floor(side / 3))
  const members = new Map<number, number[]>()
  for (let triangle = 0; triangle < group.length; triangle++) {
    if (!drawn[triangle]) continue
    const root = rootOf(triangle)
    const list = members.get(root)
    if (list) list.push(triangle)
    else members.set(root, [triangle])
  }
  return [...members.values()].flatMap((list) => {
    const single = list.map(
      (triangle): Cell => Array.from(triangles.subarray(3 * triangle, 3 * triangle + 3)),
    )
    if (list.length === 1) return single
    const outline = outlineOf(triangulation, new Set(list))
    return outline && isStarShaped(triangulation, outline) ? [outline] : single
  })
}

/**
 * Which triangles have an area. Along a straight edge of the layout, rounding makes triangles thinner than a
 * millionth of the extent; they hold nothing and would tilt wildly, so they are taken off from the outside.
 */
function withoutSlivers({
  triangles,
  halfedges,
  east,
  north,
  extentMetres,
}: Triangulation): readonly boolean[] {
  const drawn = Array.from({ length: triangles.length / 3 }, () => true)
  const isThin = (triangle: number): boolean => {
    const corners = [0, 1, 2].map((corner) => triangles[3 * triangle + corner] as number)
    const e = corners.map((place) => east[place] as number) as [number, number, number]
    const n = corners.map((place) => north[place] as number) as [number, number, number]
    const twice = (e[1] - e[0]) * (n[2] - n[0]) - (n[1] - n[0]) * (e[2] - e[0])
    const longest = Math.max(
      Math.hypot(e[1] - e[0], n[1] - n[0]),
      Math.hypot(e[2] - e[1], n[2] - n[1]),
      Math.hypot(e[0] - e[2], n[0] - n[2]),
    )
    return twice <= longest * extentMetres * 1e-6
  }
  const isOutside = (side: number): boolean => {
    const across = halfedges[side] as number
    return across < 0 || !drawn[Math.floor(across / 3)]
  }
  for (let found = true; found; ) {
    found = false
    for (let triangle = 0; triangle < drawn.length; triangle++) {
      const side = 3 * triangle
      if (!drawn[triangle] || !(isOutside(side) || isOutside(side + 1) || isOutside(side + 2))) continue
      if (!isThin(triangle)) continue
      drawn[triangle] = false
      found = true
    }
  }
  return drawn
}

/** Mean of the corners' coordinates, metres from the origin. */
export function middleOf({ east, north }: Triangulation, cell: Cell): readonly [number, number] {
  const mean = (of: Float64Array) => cell.reduce((sum, place) => sum + (of[place] as number), 0) / cell.length
  return [mean(east), mean(north)]
}

const next = (side: number) => (side % 3 === 2 ? side - 2 : side + 1)
const previous = (side: number) => (side % 3 === 0 ? side + 2 : side - 1)

function isOneCircle(triangulation: Triangulation, side: number, across: number): boolean {
  return liesOnCircle(triangulation, side, across) && liesOnCircle(triangulation, across, side)
}

/** Whether the far corner across lies on the circle through this triangle, within the slack. */
function liesOnCircle({ east, north, triangles }: Triangulation, side: number, across: number): boolean {
  const [a, b, c, d] = [side, next(side), previous(side), previous(across)].map(
    (corner) => triangles[corner] as number,
  ) as [number, number, number, number]
  const be = (east[b] as number) - (east[a] as number)
  const bn = (north[b] as number) - (north[a] as number)
  const ce = (east[c] as number) - (east[a] as number)
  const cn = (north[c] as number) - (north[a] as number)
  const twice = 2 * (be * cn - bn * ce)
  const b2 = be * be + bn * bn
  const c2 = ce * ce + cn * cn
  const centreE = (cn * b2 - bn * c2) / twice
  const centreN = (be * c2 - ce * b2) / twice
  const radius = Math.hypot(centreE, centreN)
  const distance = Math.hypot(
    (east[d] as number) - (east[a] as number) - centreE,
    (north[d] as number) - (north[a] as number) - centreN,
  )
  return Math.abs(distance - radius) <= onCircle * Math.sqrt(b2)
}

/** Places around a group of triangles; null where it is not one simple ring. */
function outlineOf({ triangles, halfedges }: Triangulation, group: ReadonlySet<number>): Cell | null {
  const after = new Map<number, number>()
  let sides = 0
  for (const triangle of group)
    for (let side = 3 * triangle; side < 3 * triangle + 3; side++) {
      const across = halfedges[side] as number
      if (across >= 0 && group.has(Math.floor(across / 3))) continue
      after.set(triangles[side] as number, triangles[next(side)] as number)
      sides += 1
    }
  const start = Math.min(...after.keys())
  const ring = [start]
  for (
    let at = after.get(start);
    at !== undefined && at !== start && ring.length <= sides;
    at = after.get(at)
  )
    ring.push(at)
  return ring.length === sides && after.size === sides ? ring : null
}

/** Whether triangles from the middle to every side turn the same way. */
function isStarShaped(triangulation: Triangulation, ring: Cell): boolean {
  const { east, north } = triangulation
  const [e, n] = middleOf(triangulation, ring)
  return ring.every((from, index) => {
    const to = ring[(index + 1) % ring.length] as number
    const turn =
      ((east[from] as number) - e) * ((north[to] as number) - n) -
      ((north[from] as number) - n) * ((east[to] as number) - e)
    return turn > 0
  })
}
