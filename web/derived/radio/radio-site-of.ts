import type { SiteDocument } from '#contract/site-document.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Pit } from '#domain/radio/ground-level.ts'
import type { Obstruction } from '#domain/radio/obstruction.ts'
import type { NamedAntenna, RadioSite } from '#domain/radio/radio-site.ts'
import { type RadioTerms, usualTerms } from '#domain/radio/receiver-sensitivity.ts'
import type { Works, WorksProperties } from '#domain/site/site.ts'
import type { Location } from '#domain/site/tables.ts'

type Source = Pick<SiteDocument, 'works' | 'loggers' | 'gateways' | 'coverageTests' | 'stages'> & {
  readonly locations: readonly Location[]
}

/** A test is carried in the hand, and a place at which nothing stands is judged as one. */
const carriedHeightMetres = 1

/** What radio links are judged from, of a site's records; works that state no top are not in the way. */
export function radioSiteOf(
  document: Source,
  grid: Pick<SiteGrid, 'toGrid'>,
  terms: RadioTerms = usualTerms,
): RadioSite {
  const antenna = (id: string, location: string | null, heightMetres: number | null): NamedAntenna[] => {
    const place = document.locations.find((one) => one.id === location)
    return place
      ? [
          {
            id,
            eastingMetres: place.eastingMetres,
            northingMetres: place.northingMetres,
            levelMetres: place.collarLevelMetres + (heightMetres ?? 0),
          },
        ]
      : []
  }
  return {
    gateways: document.gateways.flatMap((one) => antenna(one.id, one.location, one.antennaHeightMetres)),
    loggers: document.loggers
      .filter(({ kind, antennaHeightMetres }) => kind === 'logger' && antennaHeightMetres !== null)
      .flatMap((one) => antenna(one.id, one.location, one.antennaHeightMetres)),
    tests: document.coverageTests,
    stages: document.stages.map(({ name, startsAt }) => ({ name, startsAt })),
    obstructions: shapesOf(document.works, grid, ['building', 'wall', 'obstruction']).flatMap(obstructionOf),
    ground: {
      // Structures carry their marks at any height; holes, marks in the ground and masts stand on it.
      places: document.locations
        .filter(({ kind }) => kind !== 'structure')
        .map((one) => ({
          eastingMetres: one.eastingMetres,
          northingMetres: one.northingMetres,
          levelMetres: one.collarLevelMetres,
        })),
      pits: shapesOf(document.works, grid, ['excavation']).flatMap(pitOf),
    },
    terms,
    carriedHeightMetres,
  }
}

interface Shape {
  readonly properties: WorksProperties
  readonly outline: readonly SitePoint[]
}

function shapesOf(
  works: Works,
  grid: Pick<SiteGrid, 'toGrid'>,
  kinds: readonly WorksProperties['kind'][],
): readonly Shape[] {
  return works.features.flatMap(({ geometry, properties }) => {
    if (!kinds.includes(properties.kind)) return []
    const onGrid = (line: readonly (readonly number[])[]) => ({
      properties,
      outline: line.map((place): SitePoint => grid.toGrid([place[0] ?? 0, place[1] ?? 0])),
    })
    if (geometry.type === 'LineString') return [onGrid(geometry.coordinates)]
    if (geometry.type === 'Polygon' || geometry.type === 'MultiLineString')
      return geometry.coordinates.slice(0, geometry.type === 'Polygon' ? 1 : undefined).map(onGrid)
    return geometry.type === 'MultiPolygon'
      ? geometry.coordinates.flatMap((rings) => rings.slice(0, 1)).map(onGrid)
      : []
  })
}

const obstructionOf = ({ properties, outline }: Shape): Obstruction[] =>
  properties.topLevelMetres === null
    ? []
    : [
        {
          id: properties.id,
          name: properties.name,
          outline,
          topLevelMetres: properties.topLevelMetres,
          fromEpochMs: properties.fromEpochMs,
          untilEpochMs: properties.untilEpochMs,
        },
      ]

const pitOf = ({ properties, outline }: Shape): Pit[] =>
  properties.baseLevelMetres === null
    ? []
    : [
        {
          outline,
          floorLevelMetres: properties.baseLevelMetres,
          fromEpochMs: properties.fromEpochMs,
          untilEpochMs: properties.untilEpochMs,
        },
      ]
