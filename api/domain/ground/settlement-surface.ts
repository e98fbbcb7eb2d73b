import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { delaunayCells, middleOf } from './delaunay-cells.ts'
import { joinPaths } from './join-paths.ts'
import { cellsOfTriangles, type MeshCells } from './mesh-cells.ts'
import { type CutReason, type LocalLine, reasonToCut } from './surface-cuts.ts'
import { type Triangulation, triangulate } from './triangulation.ts'

export interface SurfacePoint {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
  /** Null: no value known. Its sign is the series' own. */
  readonly valueMm: number | null
  /** Null: not known. */
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
}

export interface SurfaceOptions {
  /** Lines that the ground moves apart at (walls); nothing is drawn across them. */
  readonly barriers: readonly (readonly SitePoint[])[]
  /** No side of a triangle may be longer: between points further apart nothing is known. */
  readonly longestSideMetres: number
}

export interface SettlementSurface {
  /** Whole sentence. */
  readonly method: string
  readonly parameters: { readonly longestSideMetres: number; readonly barriers: number }
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly { readonly id: string; readonly reason: string }[]
  /** Points at one place, whose mean is used. */
  readonly pointsMerged: readonly { readonly ids: readonly string[]; readonly reason: string }[]
  /** How many triangles or cells were left out of the surface, and why. */
  readonly cut: Readonly<Record<CutReason, number>>
  /** Where the surface is drawn: closed rings, outer ones counter-clockwise, holes clockwise. */
  readonly mask: readonly (readonly SitePoint[])[]
  readonly lowestMm: number
  readonly highestMm: number
  readonly mesh: SurfaceMesh
}

/** Linear pieces of a surface. Nodes are measured places first, then middles of cells of more than three. */
export interface SurfaceMesh extends MeshCells {
  readonly origin: readonly [eastingMetres: number, northingMetres: number]
  readonly east: Float64Array
  readonly north: Float64Array
  readonly valueMm: Float64Array
  /** For each node, the measured places whose mean it is (itself, or a cell's corners). */
  readonly meanOf: readonly (readonly number[])[]
  /** Standard uncertainty of each measured place; NaN where not known. */
  readonly uncertaintyMm: Float64Array
  /** Three nodes a triangle, counter-clockwise. */
  readonly triangles: Uint32Array
  readonly extentMetres: number
}

const method =
  'Linear between neighbouring points (Delaunay triangulation; points on one circle meet at their mean). Nothing is drawn outside the outermost points, across a barrier, over a side that is too long, or around a point without a current value.'

/**
 * A surface through the current values of points in plan. Late points and points without a value are left out, with
 * the triangles around them. Refused, with the reason, where fewer than three places remain, where they lie on one
 * line, or where every triangle is cut.
 */
export function buildSettlementSurface(
  points: readonly SurfacePoint[],
  { barriers, longestSideMetres }: SurfaceOptions,
): Outcome<SettlementSurface> {
  const used: (SurfacePoint & { readonly valueMm: number })[] = []
  const silent: SurfacePoint[] = []
  const pointsLeftOut: { id: string; reason: string }[] = []
  for (const point of points) {
    const reason = reasonToLeaveOut(point)
    if (reason === null) used.push(point as SurfacePoint & { readonly valueMm: number })
    else {
      silent.push(point)
      pointsLeftOut.push({ id: point.id, reason })
    }
  }
  const outcome = triangulate(used)
  if (!outcome.ok) return outcome
  const triangulation = outcome.value
  const local = (e: number, n: number) => [e - triangulation.origin[0], n - triangulation.origin[1]] as const
  const localBarriers: LocalLine[] = barriers.map((line) => line.map(([e, n]) => local(e, n)))
  const localSilent = silent
    .filter(({ eastingMetres: e, northingMetres: n }) => Number.isFinite(e) && Number.isFinite(n))
    .map(({ eastingMetres, northingMetres }) => local(eastingMetres, northingMetres))
    .filter((place) => !standsAtPlace(triangulation, place))
  const cut = { barrier: 0, 'long-side': 0, 'point-without-current-value': 0 }
  const cells = delaunayCells(triangulation).filter((cell) => {
    const reason = reasonToCut(triangulation, cell, localBarriers, longestSideMetres, localSilent)
    if (reason) cut[reason] += 1
    return reason === null
  })
  if (cells.length === 0)
    return reject({
      code: 'surface-empty',
      value: String(used.length),
      expected: 'neighbouring points with current values',
      message: `Between ${used.length} points every triangle was left out: ${cut.barrier} across a barrier, ${cut['long-side']} with a side over ${longestSideMetres} m, ${cut['point-without-current-value']} around a point without a current value. Look at the points themselves.`,
    })
  const mesh = meshOf(triangulation, cells, used)
  const { lowestMm, highestMm } = rangeOf(mesh)
  return accept({
    method,
    parameters: { longestSideMetres, barriers: barriers.length },
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut,
    pointsMerged: triangulation.members
      .filter((group) => group.length > 1)
      .map((group) => ({
        ids: group.map((index) => used[index]?.id ?? ''),
        reason: 'They stand at one place; their mean is used.',
      })),
    cut,
    mask: outlineOf(mesh),
    lowestMm,
    highestMm,
    mesh,
  })
}

function reasonToLeaveOut({ eastingMetres, northingMetres, valueMm, late }: SurfacePoint): string | null {
  if (!Number.isFinite(eastingMetres) || !Number.isFinite(northingMetres)) return 'Its position is not known.'
  if (valueMm === null || !Number.isFinite(valueMm)) return 'It has no value.'
  return late ? 'Its last reading is late: it has no current value.' : null
}

/** A point that another one has replaced at its place is not missed. */
function standsAtPlace(
  { east, north, extentMetres }: Triangulation,
  [e, n]: readonly [number, number],
): boolean {
  const slack = extentMetres * 1e-6
  return east.some(
    (value, place) => Math.abs(value - e) <= slack && Math.abs((north[place] as number) - n) <= slack,
  )
}

function meshOf(
  triangulation: Triangulation,
  cells: readonly (readonly number[])[],
  used: readonly (SurfacePoint & { readonly valueMm: number })[],
): SurfaceMesh {
  const { origin, members, extentMetres } = triangulation
  const east = [...triangulation.east]
  const north = [...triangulation.north]
  const values = members.map((group) => meanValue(group.map((index) => used[index]?.valueMm ?? Number.NaN)))
  const uncertaintyMm = Float64Array.from(members, (group) => {
    const variances = group.map((index) => (used[index]?.standardUncertaintyMm ?? Number.NaN) ** 2)
    return Math.sqrt(variances.reduce((sum, variance) => sum + variance, 0)) / group.length
  })
  const meanOf: (readonly number[])[] = members.map((_, place) => [place])
  const triangles: number[] = []
  for (const cell of cells) {
    if (cell.length === 3) {
      triangles.push(...cell)
      continue
    }
    const middle = east.length
    const [e, n] = middleOf(triangulation, cell)
    east.push(e)
    north.push(n)
    values.push(meanValue(cell.map((place) => values[place] as number)))
    meanOf.push(cell)
    cell.forEach((from, index) => {
      triangles.push(middle, from, cell[(index + 1) % cell.length] as number)
    })
  }
  return {
    origin,
    east: Float64Array.from(east),
    north: Float64Array.from(north),
    valueMm: Float64Array.from(values),
    meanOf,
    uncertaintyMm,
    triangles: Uint32Array.from(triangles),
    ...cellsOfTriangles(triangles, east.length),
    extentMetres,
  }
}

/** Never outside the values it is the mean of, whatever the rounding. */
function meanValue(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.min(Math.max(mean, Math.min(...values)), Math.max(...values))
}

/** Edge of a mesh: closed rings, outer ones counter-clockwise, holes clockwise. */
export function outlineOf({ rim, east, north, origin }: SurfaceMesh): readonly (readonly SitePoint[])[] {
  const sides: number[][] = []
  for (let at = 0; at < rim.length; at += 2) {
    const [from, to] = [rim[at] as number, rim[at + 1] as number]
    sides.push([east[from] as number, north[from] as number, east[to] as number, north[to] as number])
  }
  return joinPaths(sides).map(({ coordinates }) => toSitePoints(coordinates, origin))
}

/** East, north, alternating, from an origin, as points of the site grid. */
export function toSitePoints(
  coordinates: readonly number[],
  [originE, originN]: readonly [number, number],
): readonly SitePoint[] {
  const points: SitePoint[] = []
  for (let index = 0; index < coordinates.length; index += 2)
    points.push([originE + (coordinates[index] as number), originN + (coordinates[index + 1] as number)])
  return points
}

function rangeOf({ triangles, valueMm }: SurfaceMesh): { lowestMm: number; highestMm: number } {
  let lowestMm = Number.POSITIVE_INFINITY
  let highestMm = Number.NEGATIVE_INFINITY
  for (const node of triangles) {
    lowestMm = Math.min(lowestMm, valueMm[node] as number)
    highestMm = Math.max(highestMm, valueMm[node] as number)
  }
  return { lowestMm, highestMm }
}
