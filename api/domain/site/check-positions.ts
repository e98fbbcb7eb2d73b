import { couldBeDegrees, lookLikeDegrees } from '../geometry/look-like-degrees.ts'
import { metresBetween } from '../geometry/straight-distance.ts'
import type { Issue } from '../outcome.ts'
import { median } from '../statistics/spread.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/**
 * Positions are metres on the site grid: not degrees, and none so far from the others that it can only be mistyped. One
 * such place would stretch every surface over half the earth, in which the site is nothing.
 */
export function checkPositions({ locations, wells }: SiteReadings): readonly Issue[] {
  const places = locations.sound
  const [first] = places
  if (!first) return []
  if (lookLikeDegrees(places.map(({ row }) => row)))
    return [
      {
        ...cellIssue('locations', first.line, 'eastingMetres', first.row.eastingMetres),
        code: 'coordinates-in-degrees',
        expected: 'eastings and northings in metres on the site grid',
        message: `All ${places.length} locations lie within one unit of each other, from ${first.row.eastingMetres}, ${first.row.northingMetres}: they look like longitudes and latitudes. Give eastings and northings in metres on the grid of site.csv.`,
      },
    ]
  const middle = {
    eastingMetres: median(places.map(({ row }) => row.eastingMetres)),
    northingMetres: median(places.map(({ row }) => row.northingMetres)),
  }
  const faults = (table: 'locations' | 'wells') =>
    [...(table === 'locations' ? places : wells.sound)].flatMap(({ line, row }): Issue[] => {
      const metres = metresBetween(row, middle)
      if (metres <= farthestMetres) return []
      const degrees = couldBeDegrees(row)
        ? ' It looks like a longitude and a latitude.'
        : ' A digit may be missing, or easting and northing may have been exchanged.'
      return [
        {
          ...cellIssue(table, line, 'eastingMetres', row.eastingMetres),
          code: 'position-far-off',
          expected: `within ${farthestMetres / 1000} km of the middle of all locations`,
          message: `${row.id} at E ${row.eastingMetres} N ${row.northingMetres} lies ${kilometres(metres)} km from the middle of all locations.${degrees} Correct it.`,
        },
      ]
    })
  return [...faults('locations'), ...faults('wells')]
}

/** Longer than the longest site along a tunnel or a railway, from its middle. */
const farthestMetres = 100_000

const kilometres = (metres: number) => String(Number((metres / 1000).toPrecision(3)))
