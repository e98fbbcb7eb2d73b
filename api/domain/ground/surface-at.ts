import type { SitePoint } from '../geometry/site-grid.ts'
import type { SettlementSurface, SurfaceMesh } from './settlement-surface.ts'

export interface SurfaceValue {
  readonly valueMm: number
  /** From the points' own uncertainties, taken as independent; null where one is not known. Says nothing of the
   * ground between the points. */
  readonly standardUncertaintyMm: number | null
  /** Rise of the value eastward and northward, mm per metre. */
  readonly gradientMmPerMetre: readonly [eastward: number, northward: number]
}

/** The surface at a point; null outside its mask. Of two triangles that share the point, either. */
export function surfaceAt({ mesh }: SettlementSurface, point: SitePoint): SurfaceValue | null {
  const e = point[0] - mesh.origin[0]
  const n = point[1] - mesh.origin[1]
  let best: Corners | null = null
  let least = 1e-9
  for (let side = 0; side < mesh.triangles.length; side += 3) {
    const corners = cornersAt(mesh, side, e, n)
    const outside = -Math.min(...corners.weights)
    if (outside < least) {
      least = outside
      best = corners
      if (outside <= 0) break
    }
  }
  return best && interpolate(mesh, best)
}

interface Corners {
  readonly nodes: readonly [number, number, number]
  /** Barycentric: each from 0 to 1 inside, together 1. */
  readonly weights: readonly [number, number, number]
  /** Of each weight: per metre eastward, northward. */
  readonly slopes: readonly (readonly [number, number])[]
}

function cornersAt({ triangles, east, north }: SurfaceMesh, side: number, e: number, n: number): Corners {
  const nodes = [triangles[side], triangles[side + 1], triangles[side + 2]] as [number, number, number]
  const [ae, be, ce] = nodes.map((node) => east[node] as number) as [number, number, number]
  const [an, bn, cn] = nodes.map((node) => north[node] as number) as [number, number, number]
  const twice = (be - ae) * (cn - an) - (bn - an) * (ce - ae)
  const slopeB = [(cn - an) / twice, -(ce - ae) / twice] as const
  const slopeC = [-(bn - an) / twice, (be - ae) / twice] as const
  const b = (e - ae) * slopeB[0] + (n - an) * slopeB[1]
  const c = (e - ae) * slopeC[0] + (n - an) * slopeC[1]
  const slopeA = [-slopeB[0] - slopeC[0], -slopeB[1] - slopeC[1]] as const
  return { nodes, weights: [1 - b - c, b, c], slopes: [slopeA, slopeB, slopeC] }
}

function interpolate({ valueMm, meanOf, uncertaintyMm }: SurfaceMesh, corners: Corners): SurfaceValue {
  const [a] = corners.nodes
  const base = valueMm[a] as number
  let value = base
  let eastward = 0
  let northward = 0
  const shares = new Map<number, number>()
  corners.nodes.forEach((node, index) => {
    const weight = corners.weights[index] as number
    const slope = corners.slopes[index] as readonly [number, number]
    const above = (valueMm[node] as number) - base
    value += weight * above
    eastward += slope[0] * above
    northward += slope[1] * above
    const places = meanOf[node] as readonly number[]
    for (const place of places) shares.set(place, (shares.get(place) ?? 0) + weight / places.length)
  })
  let variance = 0
  for (const [place, share] of shares)
    if (share !== 0) variance += (share * (uncertaintyMm[place] as number)) ** 2
  return {
    valueMm: value,
    standardUncertaintyMm: Number.isNaN(variance) ? null : Math.sqrt(variance),
    gradientMmPerMetre: [eastward, northward],
  }
}
