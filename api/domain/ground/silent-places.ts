import type { SitePoint } from '../geometry/site-grid.ts'
import { placeOfNode } from './grid-slope.ts'
import { type GroundPoint, reasonToLeaveOut } from './kriging/ground-point.ts'
import type { GridPlace } from './value-grid.ts'

/** Where points without a current value stand, unless another with one stands within `hairMetres` of it. */
export function silentPlaces(points: readonly GroundPoint[], hairMetres: number): readonly SitePoint[] {
  const [silent, current] = [[] as SitePoint[], [] as SitePoint[]]
  for (const point of points) {
    const { eastingMetres: east, northingMetres: north } = point
    if (Number.isFinite(east) && Number.isFinite(north))
      (reasonToLeaveOut(point) === null ? current : silent).push([east, north])
  }
  return silent.filter(
    ([e, n]) => !current.some(([east, north]) => Math.hypot(east - e, north - n) <= hairMetres),
  )
}

/** Nothing is shown within a radius of some places: the mask says so, and the edge runs around them. */
export function cutAround(
  places: readonly SitePoint[],
  radiusMetres: number,
  grid: GridPlace,
  mask: Uint8Array,
  inwardMetres: Float64Array,
): void {
  if (places.length === 0 || radiusMetres <= 0) return
  for (let node = 0; node < mask.length; node++) {
    if (Number.isNaN(inwardMetres[node])) continue
    const [east, north] = placeOfNode(grid, node)
    const away =
      places.reduce((least, [e, n]) => Math.min(least, Math.hypot(e - east, n - north)), Infinity) -
      radiusMetres
    if (away <= 0 && mask[node] === 0) mask[node] = 2
    inwardMetres[node] = Math.min(inwardMetres[node] as number, away)
  }
}
