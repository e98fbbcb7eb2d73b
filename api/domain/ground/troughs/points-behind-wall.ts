import type { Station } from '../../geometry/alignment.ts'
import type { SitePoint } from '../../geometry/site-grid.ts'
import type { SettledPlace } from './trough-across.ts'
import type { PointBehindWall } from './trough-behind-wall.ts'

/**
 * Points at the surface behind a wall that is drawn as a line, by their distance from it, near the inclinometer whose
 * chainage is stated. Points on the side that is dug have a distance below 0, and are left out with that reason.
 */
export function pointsBehindWall(
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  options: {
    readonly dugSide: 'left' | 'right'
    readonly chainageMetres: number
    readonly withinMetres: number
  },
): readonly PointBehindWall[] {
  const { dugSide, chainageMetres, withinMetres } = options
  return places.flatMap((place): PointBehindWall[] => {
    const station = stationOf([place.eastingMetres, place.northingMetres])
    if (
      !station ||
      station.beyond !== null ||
      place.depthMetres > 0.5 ||
      Math.abs(station.chainageMetres - chainageMetres) > withinMetres
    )
      return []
    const { id, settlementMm, standardUncertaintyMm, late } = place
    const distanceMetres = dugSide === 'left' ? station.offsetMetres : -station.offsetMetres
    return [{ id, distanceMetres, settlementMm, standardUncertaintyMm, late }]
  })
}
