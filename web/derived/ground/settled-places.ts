import type { Series } from '#contract/site-document.ts'
import type { Station } from '#domain/geometry/alignment.ts'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import type { SettledPlace } from '#domain/ground/troughs/trough-across.ts'
import type { SettlementPoint } from '../settlement-points.ts'

/** Levelled points as places of a trough: all of them stand at the surface. */
export const asSettledPlaces = (points: readonly SettlementPoint[]): readonly SettledPlace[] =>
  points.map(({ id, eastingMetres, northingMetres, valueMm, standardUncertaintyMm, late }) => ({
    id,
    eastingMetres,
    northingMetres,
    depthMetres: 0,
    settlementMm: valueMm,
    standardUncertaintyMm,
    late,
  }))

/** Those no farther from a line than a reach: farther out, what settles settles by other works. */
export const placesWithin = (
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  reachMetres: number,
): readonly SettledPlace[] =>
  places.filter(({ eastingMetres, northingMetres }) => {
    const station = stationOf([eastingMetres, northingMetres])
    return station !== null && Math.abs(station.offsetMetres) <= reachMetres
  })

export interface PointBesideLine {
  readonly id: string
  readonly series: Series
  readonly station: Station
}

/** Points between the ends of a line, the nearest to it first. */
export const pointsBesideLine = (
  places: readonly SettledPlace[],
  series: readonly Series[],
  stationOf: (point: SitePoint) => Station | null,
): readonly PointBesideLine[] =>
  places
    .flatMap(({ id, eastingMetres, northingMetres }) => {
      const station = stationOf([eastingMetres, northingMetres])
      const own = series.find(({ point }) => point === id)
      return station && own && station.beyond === null ? [{ id, series: own, station }] : []
    })
    .toSorted((one, other) => Math.abs(one.station.offsetMetres) - Math.abs(other.station.offsetMetres))
