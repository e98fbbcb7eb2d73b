import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { areaAndCentroid, convexHull, inwardOfHull, shareOutside } from './convex-hull.ts'
import { placeOfNode } from './grid-slope.ts'
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
  const inwardMetres = new Float64Array(values.length).fill(Number.NaN)
  const middle = areaAndCentroid(hull).centroid
  const valueAt = ([east, north]: SitePoint) =>
    how === 'inverse distance'
      ? inverseDistanceValue(places, east, north, 2)
      : weighted(places, naturalNeighbourWeights(spots, [east, north]))
  for (let node = 0; node < values.length; node++) {
    if (node % place.columns === 0) yield node / values.length
    const [east, north] = placeOfNode(place, node)
    const spot = [east - origin[0], north - origin[1]] as const
    const inward = inwardOfHull(hull, spot)
    if (inward < -1.5 * place.cellMetres) continue
    const value =
      (inward >= 0 ? valueAt(spot) : null) ?? valueBeyond(valueAt, spot, hull, middle, place.cellMetres)
    if (value === null) continue
    values[node] = value
    inwardMetres[node] = inward
    if (inward >= 0) mask[node] = 0
  }
  return accept({
    grid: { ...place, values, mask, edge: { inwardMetres, part: null } },
    method: sentences[how],
    pointsUsed: used.map(({ id }) => id),
    pointsLeftOut,
    pointsMerged: merged,
  })
}

/** On the edge or beyond it: the straight line on from two places inside, towards the middle of the hull. */
function valueBeyond(
  valueAt: (spot: SitePoint) => number | null,
  spot: SitePoint,
  hull: readonly SitePoint[],
  middle: SitePoint,
  cellMetres: number,
): number | null {
  const length = Math.hypot(middle[0] - spot[0], middle[1] - spot[1])
  const beyond = shareOutside(hull, spot, middle) * length
  const at = (metres: number) => {
    const share = Math.min(1, metres / length)
    return valueAt([spot[0] + share * (middle[0] - spot[0]), spot[1] + share * (middle[1] - spot[1])])
  }
  // Nearer the edge than this, a cell of natural neighbours reaches too far to be measured.
  const [near, far] = [beyond + 0.1 * cellMetres, beyond + cellMetres]
  const [one, other] = [at(near), at(far)]
  return one === null || other === null ? null : one + ((one - other) / (far - near)) * near
}

const weighted = (places: readonly { readonly value: number }[], weights: readonly number[] | null) =>
  weights ? weights.reduce((sum, weight, index) => sum + weight * (places[index]?.value ?? 0), 0) : null
