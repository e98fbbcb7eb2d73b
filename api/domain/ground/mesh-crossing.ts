import type { SitePoint } from '../geometry/site-grid.ts'
import type { SurfaceMesh } from './settlement-surface.ts'

/** Where a side passes a level, on the site grid. The same numbers come out whichever way the side is walked. */
export function crossingOf(
  { origin, east, north, valueMm }: SurfaceMesh,
  one: number,
  other: number,
  level: number,
): SitePoint {
  const a = Math.min(one, other)
  const b = Math.max(one, other)
  const va = valueMm[a] as number
  const share = Math.min(1, Math.max(0, (level - va) / ((valueMm[b] as number) - va)))
  // At an end exactly that node, whichever sides of it are walked.
  if (share === 1) return [origin[0] + (east[b] as number), origin[1] + (north[b] as number)]
  return [
    origin[0] + ((east[a] as number) + share * ((east[b] as number) - (east[a] as number))),
    origin[1] + ((north[a] as number) + share * ((north[b] as number) - (north[a] as number))),
  ]
}
