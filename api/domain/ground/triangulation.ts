import { Delaunay } from 'd3-delaunay'
import { accept, type Outcome, reject } from '../outcome.ts'

export interface PlanPoint {
  readonly eastingMetres: number
  readonly northingMetres: number
}

export interface Triangulation {
  /** Added to `east` and `north` gives the site grid; close to the points, so that no digits are lost. */
  readonly origin: readonly [eastingMetres: number, northingMetres: number]
  /** Of each distinct place, metres from the origin. */
  readonly east: Float64Array
  readonly north: Float64Array
  /** Indices of the points given at each place: more than one where points share it. */
  readonly members: readonly (readonly number[])[]
  /** Three places a triangle, counter-clockwise. */
  readonly triangles: Uint32Array
  /** For each side of each triangle, the side of the neighbour across it; -1 at the hull. */
  readonly halfedges: Int32Array
  /** Greatest side of the box around the points. */
  readonly extentMetres: number
}

/** Points closer than this share of the extent stand at one place; a line thinner than it has no area. */
const relativeSlack = 1e-6

/**
 * Delaunay triangulation of points in plan. Points at one place (within a millionth of the extent) are merged.
 * Fewer than three places, or all of them on one line, is refused with the reason.
 */
export function triangulate(points: readonly PlanPoint[]): Outcome<Triangulation> {
  const first = points[0]
  if (!first) return reject(tooFew(0))
  const origin = [first.eastingMetres, first.northingMetres] as const
  const e = Float64Array.from(points, (point) => point.eastingMetres - origin[0])
  const n = Float64Array.from(points, (point) => point.northingMetres - origin[1])
  const extentMetres = Math.max(spread(e), spread(n))
  const members = mergePlaces(e, n, extentMetres * relativeSlack)
  if (members.length < 3) return reject(tooFew(members.length))
  const mean = (of: Float64Array) =>
    Float64Array.from(
      members,
      (group) => group.reduce((sum, index) => sum + (of[index] as number), 0) / group.length,
    )
  const east = mean(e)
  const north = mean(n)
  if (isOneLine(east, north, extentMetres * relativeSlack))
    return reject({
      code: 'points-on-one-line',
      value: String(members.length),
      expected: 'points on both sides of a line',
      message: `All ${members.length} points lie on one line, so there is no surface between them. Draw them as a profile along that line, or add points beside it.`,
    })
  // The library turns clockwise in a frame whose second axis points up, so it is given the mirror image.
  const flat = new Float64Array(members.length * 2)
  for (let index = 0; index < members.length; index++) {
    flat[2 * index] = east[index] as number
    flat[2 * index + 1] = -(north[index] as number)
  }
  const { triangles, halfedges } = new Delaunay(flat)
  return accept({
    origin,
    east,
    north,
    members,
    triangles: Uint32Array.from(triangles),
    halfedges: Int32Array.from(halfedges),
    extentMetres,
  })
}

function tooFew(places: number) {
  return {
    code: 'too-few-points',
    value: String(places),
    expected: 'at least 3 places',
    message: `A surface needs values at three places or more; there ${places === 1 ? 'is 1' : `are ${places}`}. Wait for readings, or widen what is shown.`,
  }
}

const spread = (values: Float64Array) =>
  values.reduce((high, value) => Math.max(high, value), Number.NEGATIVE_INFINITY) -
  values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY)

/** Groups of point indices, in the order of their first point. */
function mergePlaces(e: Float64Array, n: Float64Array, slack: number): readonly (readonly number[])[] {
  const eastward = Array.from(e.keys()).sort((a, b) => (e[a] as number) - (e[b] as number) || a - b)
  const groupOf = new Map<number, number[]>()
  eastward.forEach((index, rank) => {
    for (let before = rank - 1; before >= 0; before--) {
      const other = eastward[before] as number
      if ((e[index] as number) - (e[other] as number) > slack) break
      if (Math.abs((n[index] as number) - (n[other] as number)) > slack) continue
      const group = groupOf.get(other) as number[]
      group.push(index)
      groupOf.set(index, group)
      return
    }
    groupOf.set(index, [index])
  })
  const groups = [...new Set(groupOf.values())]
  for (const group of groups) group.sort((a, b) => a - b)
  return groups.sort((a, b) => (a[0] as number) - (b[0] as number))
}

function isOneLine(east: Float64Array, north: Float64Array, slack: number): boolean {
  const farthest = (from: number) => {
    let best = from
    let far = -1
    for (let index = 0; index < east.length; index++) {
      const distance = Math.hypot(
        (east[index] as number) - (east[from] as number),
        (north[index] as number) - (north[from] as number),
      )
      if (distance > far) {
        far = distance
        best = index
      }
    }
    return best
  }
  const a = farthest(0)
  const b = farthest(a)
  const de = (east[b] as number) - (east[a] as number)
  const dn = (north[b] as number) - (north[a] as number)
  const length = Math.hypot(de, dn)
  return east.every(
    (value, index) =>
      Math.abs((value - (east[a] as number)) * dn - ((north[index] as number) - (north[a] as number)) * de) <=
      slack * length,
  )
}
