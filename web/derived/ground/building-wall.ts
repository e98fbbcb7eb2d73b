import type { Station } from '#domain/geometry/alignment.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'

/** A building beside an alignment: where its outline lies across and along it. */
export interface BuildingBeside {
  readonly id: string
  readonly name: string
  /** From the line, right of travel positive. */
  readonly fromOffsetMetres: number
  readonly toOffsetMetres: number
  readonly fromChainageMetres: number
  readonly toChainageMetres: number
  /** From its recorded base to its recorded top; null where either is missing. */
  readonly heightMetres: number | null
}

/** Buildings of which a corner lies within a reach of the line, the nearest first; none of which all lies beyond its ends. */
export function buildingsBeside(
  works: Works,
  grid: SiteGrid,
  stationOf: (point: SitePoint) => Station | null,
  reachMetres: number,
): readonly BuildingBeside[] {
  return works.features
    .flatMap(({ geometry, properties }) => {
      if (properties.kind !== 'building' || geometry.type !== 'Polygon') return []
      const stations = (geometry.coordinates[0] ?? []).flatMap((at) => {
        const station = stationOf(grid.toGrid([at[0] ?? 0, at[1] ?? 0]))
        return station && station.beyond === null ? [station] : []
      })
      const offsets = stations.map(({ offsetMetres }) => offsetMetres)
      const chainages = stations.map(({ chainageMetres }) => chainageMetres)
      if (!offsets.some((offset) => Math.abs(offset) <= reachMetres)) return []
      const { id, name, topLevelMetres: top, baseLevelMetres: base } = properties
      return [
        {
          id,
          name,
          fromOffsetMetres: Math.min(...offsets),
          toOffsetMetres: Math.max(...offsets),
          fromChainageMetres: Math.min(...chainages),
          toChainageMetres: Math.max(...chainages),
          heightMetres: top !== null && base !== null && top > base ? top - base : null,
        },
      ]
    })
    .toSorted((one, other) => nearest(one) - nearest(other))
}

const nearest = ({ fromOffsetMetres: from, toOffsetMetres: to }: BuildingBeside): number =>
  from < 0 && to > 0 ? 0 : Math.min(Math.abs(from), Math.abs(to))
