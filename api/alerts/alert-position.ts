import { pointOf } from '#domain/alerts/alert-subject.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { positionAtDepth } from '#domain/geometry/hole.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { CapPosition } from './cap-message.ts'

type PlacedSite = Pick<SiteModel, 'facts' | 'controlPoints' | 'points' | 'instruments' | 'locations'>

/** Where the point or instrument of a series is (WGS 84); null where the site does not say or its grid is not tied. */
export function positionOfSeries(site: PlacedSite, series: string): CapPosition | null {
  const place = pointOf(series)
  const point = site.points.find(({ id }) => id === place)
  const instrument = site.instruments.find(({ id }) => id === (point?.instrument ?? place))
  const location = site.locations.find(({ id }) => id === instrument?.location)
  const grid = openGridOfSite(site.facts, site.controlPoints)
  if (!location || !grid.ok) return null
  const { eastingMetres, northingMetres } = positionAtDepth(location, point?.depthMetres ?? 0)
  const [longitudeDegrees, latitudeDegrees] = grid.value.toLngLat([eastingMetres, northingMetres])
  return { latitudeDegrees, longitudeDegrees }
}
