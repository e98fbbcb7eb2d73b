import { booleanPointInPolygon } from '@turf/turf'
import { crossesLine } from '#domain/geometry/crosses-line.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import { barriersAt } from '#domain/ground/barriers-at.ts'
import type { Works } from '#domain/site/site.ts'

interface Placed {
  readonly eastingMetres: number
  readonly northingMetres: number
}

/** Name of the excavation, of whatever time, within whose outline a place lies; null outside of all. */
export function excavationAround(
  works: Works,
  grid: SiteGrid,
  { eastingMetres, northingMetres }: Placed,
): string | null {
  const inside = works.features.find(({ geometry, properties }) => {
    if (properties.kind !== 'excavation' || geometry.type !== 'Polygon') return false
    const coordinates = geometry.coordinates.map((ring) =>
      ring.map((at) => [...grid.toGrid([at[0] ?? 0, at[1] ?? 0])]),
    )
    return booleanPointInPolygon([eastingMetres, northingMetres], { type: 'Polygon', coordinates })
  })
  return inside?.properties.name ?? null
}

/** How many places have a wall that stands at an instant between them and a well; as a caution, null where none has. */
export function wallSentence(
  works: Works,
  grid: SiteGrid,
  atEpochMs: number,
  wells: readonly Placed[],
  places: readonly (Placed & { readonly id: string })[],
): string | null {
  const walls = barriersAt(works, grid, atEpochMs).filter((line) => line.length > 1)
  const behind = places.filter((place) =>
    wells.some((well) =>
      walls.some((line) =>
        crossesLine(
          [well.eastingMetres, well.northingMetres],
          [place.eastingMetres, place.northingMetres],
          line,
        ),
      ),
    ),
  )
  return behind.length === 0
    ? null
    : `A wall that stands at the clock lies between a well and ${behind.map(({ id }) => id).join(', ')}. Theis knows of no wall: what it keeps back shows as measured less than computed.`
}
