import { accept, type Outcome } from '../outcome.ts'
import type { SiteFacts } from '../site/site.ts'
import type { ControlPoint } from '../site/tables.ts'
import { type ControlPair, fitLocalGrid } from './local-grid.ts'
import { onLocalGrid, openSiteGrid, type SiteGrid } from './site-grid.ts'

/**
 * The grid on which a site's eastings and northings stand: that of its CRS, or, where there are control points, its own
 * grid tied to the CRS by them.
 */
export function openGridOfSite(
  facts: Pick<SiteFacts, 'crs' | 'localGridScale'>,
  controlPoints: readonly ControlPoint[] = [],
): Outcome<SiteGrid> {
  const grid = openSiteGrid(facts.crs)
  if (!grid.ok || controlPoints.length === 0) return grid
  const pairs = controlPoints.map((point) => controlPair(point, grid.value))
  const fit = fitLocalGrid(pairs, facts.localGridScale === 'one')
  return fit.ok ? accept(onLocalGrid(grid.value, fit.value)) : fit
}

function controlPair(point: ControlPoint, grid: SiteGrid): ControlPair {
  const { crsEastingMetres, crsNorthingMetres, longitudeDegrees, latitudeDegrees } = point
  const written = crsEastingMetres !== null && crsNorthingMetres !== null
  return {
    id: point.id,
    local: [point.localEastingMetres, point.localNorthingMetres],
    crs: written
      ? [crsEastingMetres, crsNorthingMetres]
      : grid.toGrid([longitudeDegrees ?? Number.NaN, latitudeDegrees ?? Number.NaN]),
  }
}
