import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import { type Contours, drawContours } from '#domain/ground/contours.ts'
import { buildSettlementSurface, type SurfacePoint } from '#domain/ground/settlement-surface.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { Works } from '#domain/site/site.ts'

/** What the worker is given: plain values that survive being posted. */
export interface ContourRequest {
  readonly points: readonly SurfacePoint[]
  readonly barriers: readonly (readonly SitePoint[])[]
  readonly longestSideMetres: number
}

/** Contours of settlement, positive downwards as the points give it, or every reason why there are none. */
export function settlementContours({
  points,
  barriers,
  longestSideMetres,
}: ContourRequest): Outcome<Contours> {
  const surface = buildSettlementSurface(points, { barriers, longestSideMetres })
  return surface.ok ? { ok: true, value: drawContours(surface.value) } : surface
}

/**
 * Outlines of the works that part the ground at an instant, on the site grid. A wall that is not built yet, or
 * taken out, parts nothing.
 */
export function barriersAt(
  works: Works,
  grid: SiteGrid,
  atEpochMs: number,
): readonly (readonly SitePoint[])[] {
  return works.features.flatMap(({ geometry, properties }) => {
    if (!properties.barrier) return []
    if (properties.fromEpochMs !== null && atEpochMs < properties.fromEpochMs) return []
    if (properties.untilEpochMs !== null && atEpochMs >= properties.untilEpochMs) return []
    const onGrid = (line: readonly (readonly number[])[]) =>
      line.map((place) => grid.toGrid([place[0] ?? 0, place[1] ?? 0]))
    if (geometry.type === 'LineString') return [onGrid(geometry.coordinates)]
    if (geometry.type === 'Polygon' || geometry.type === 'MultiLineString')
      return geometry.coordinates.map(onGrid)
    return geometry.type === 'MultiPolygon' ? geometry.coordinates.flat().map(onGrid) : []
  })
}
