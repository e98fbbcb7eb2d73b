import type { SiteGrid, SitePoint } from '../geometry/site-grid.ts'
import type { Works } from '../site/site.ts'

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
