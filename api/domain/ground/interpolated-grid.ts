import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { areaAndCentroid, convexHull, isInHull } from './convex-hull.ts'
import { inverseDistanceValue } from './inverse-distance.ts'
import { type GroundPoint, type LeftOutPoint, reasonToLeaveOut } from './kriging/ground-point.ts'
import { placesOf } from './kriging/places-of-points.ts'
import { naturalNeighbourWeights } from './natural-neighbours.ts'
import type { GridPlace, ValueGrid } from './value-grid.ts'

/** A grid without a deviation: neither method knows one. */
export interface InterpolatedGrid {
  readonly grid: ValueGrid
  /** Whole sentence. */
  readonly method: string
  readonly pointsUsed: readonly string[]
  readonly pointsLeftOut: readonly LeftOutPoint[]
  readonly pointsMerged: readonly { readonly ids: readonly string[]; readonly reason: string }[]
}

const sentences = {
  'natural neighbours':
    "Natural neighbours (Sibson): each node takes its neighbours' values in shares of area. It states no uncertainty.",
  'inverse distance':
    'Fallback: inverse distance squared. It makes a bull’s eye of every point, pays no heed to how points cluster and states no uncertainty; do not read shape from it.',
}

export type GridMethod = keyof typeof sentences

/** In steps, each a row of the grid, that yield the share done: values inside the outermost points by a method that needs no variogram; refused for points on one line or too few. */
export function* interpolatedGridSteps(
  points: readonly GroundPoint[],
  how: GridMethod,
  place: GridPlace,
  unit: string,
): Generator<number, Outcome<InterpolatedGrid>> {
  const pointsLeftOut: LeftOutPoint[] = []
  const used: (GroundPoint & { readonly value: number })[] = []
  for (const point of points) {
    const reason = reasonToLeaveOut(point)
    if (reason === null) used.push(point as GroundPoint & { readonly value: number })
    else pointsLeftOut.push({ id: point.id, reason })
  }
  const placed = placesOf(used, unit)
  if (!placed.ok) return placed
  const { places, origin, merged, extentMetres } = placed.value
  const spots = places.map(({ east, north }): SitePoint => [east, north])
  const hull = convexHull(spots)
  if (hull.length < 3 || areaAndCentroid(hull).area <= 1e-6 * extentMetres ** 2)
    return reject({
      code: 'points-on-one-line',
      value: String(places.length),
      expected: 'three places, not on one line',
      message: `${places.length} places with a value give no surface: three or more that are not on one line are needed.`,
    })
  const values = new Float64Array(place.columns * place.rows).fill(Number.NaN)
  const mask = new Uint8Array(values.length).fill(1)
  for (let node = 0; node < values.length; node++) {
    const column = node % place.columns
    if (column === 0) yield node / values.length
    const east = place.origin[0] - origin[0] + column * place.cellMetres
    const north = place.origin[1] - origin[1] + ((node - column) / place.columns) * place.cellMetres
    if (!isInHull(hull, [east, north], 0)) continue
    const value =
      how === 'inverse distance'
        ? inverseDistanceValue(places, east, north, 2)
        : weighted(places, naturalNeighbourWeights(spots, [east, north]))
    if (value === null) continue
    values[node] = value
    mask[node] = 0
  }
  return accept({
    grid: { ...place, values, mask },
    method: sentences[how],
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut,
    pointsMerged: merged,
  })
}

const weighted = (places: readonly { readonly value: number }[], weights: readonly number[] | null) =>
  weights ? weights.reduce((sum, weight, index) => sum + weight * (places[index]?.value ?? 0), 0) : null
