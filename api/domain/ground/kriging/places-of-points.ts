import { lookLikeDegrees } from '../../geometry/look-like-degrees.ts'
import { accept, type Outcome, reject } from '../../outcome.ts'
import type { GroundPoint } from './ground-point.ts'
import type { KrigingPoint } from './kriging-system.ts'

export interface Places {
  /** Added to the coordinates of the places gives the site grid. */
  readonly origin: readonly [eastingMetres: number, northingMetres: number]
  readonly places: readonly KrigingPoint[]
  /** Ids of the points at each place. */
  readonly ids: readonly (readonly string[])[]
  /** Points at one place, and what was made of them. */
  readonly merged: readonly { readonly ids: readonly string[]; readonly reason: string }[]
  /** Greatest distance between two corners of the box around the places. */
  readonly extentMetres: number
}

/**
 * Points with values as places. Points at one place (within a millionth of the extent) become one: the mean, or, where
 * each has a standard uncertainty, the mean weighted by their inverse squares, which is what both say together.
 * Refused: no point, and coordinates that can only be degrees.
 */
export function placesOf(
  points: readonly (GroundPoint & { readonly value: number })[],
  unit: string,
): Outcome<Places> {
  if (points.length === 0)
    return reject({
      code: 'no-points',
      value: '0',
      expected: 'points with a current value',
      message:
        'No point has a current value, so there is nothing to draw. Wait for readings, or choose another time.',
    })
  if (lookLikeDegrees(points)) return reject(positionsInDegrees(points))
  const mean = (of: (point: GroundPoint) => number) =>
    Math.round(points.reduce((sum, point) => sum + of(point) / points.length, 0))
  const origin = [mean((p) => p.eastingMetres), mean((p) => p.northingMetres)] as const
  const span = (of: (point: GroundPoint) => number) =>
    points.reduce((most, p) => Math.max(most, of(p)), Number.NEGATIVE_INFINITY) -
    points.reduce((least, p) => Math.min(least, of(p)), Number.POSITIVE_INFINITY)
  const extentMetres = Math.hypot(
    span((p) => p.eastingMetres),
    span((p) => p.northingMetres),
  )
  const groups = groupByPlace(points, Math.max(1e-6 * extentMetres, 1e-6))
  const merged: { ids: readonly string[]; reason: string }[] = []
  const places = groups.map((group) => {
    const place = mergeGroup(group, origin)
    if (group.length > 1) merged.push({ ids: group.map(({ id }) => id), reason: reasonOf(group, unit) })
    return place
  })
  return accept({
    origin,
    places,
    ids: groups.map((group) => group.map(({ id }) => id)),
    merged,
    extentMetres,
  })
}

/** All positions can only be degrees; metres are needed. */
export const positionsInDegrees = (
  points: readonly { readonly eastingMetres: number; readonly northingMetres: number }[],
) => ({
  code: 'coordinates-in-degrees',
  value: `${points[0]?.eastingMetres}, ${points[0]?.northingMetres}`,
  expected: 'eastings and northings in metres',
  message: `All ${points.length} positions lie within one unit of each other and within 180 by 90 of nought: they look like longitudes and latitudes. Give eastings and northings in metres.`,
})

type Valued = GroundPoint & { readonly value: number }

function groupByPlace(points: readonly Valued[], slack: number): readonly (readonly Valued[])[] {
  const order = points.toSorted((a, b) => a.eastingMetres - b.eastingMetres)
  const groups = new Map<Valued, Valued[]>()
  order.forEach((point, rank) => {
    for (let before = rank - 1; before >= 0; before--) {
      const other = order[before] as Valued
      if (point.eastingMetres - other.eastingMetres > slack) break
      if (Math.abs(point.northingMetres - other.northingMetres) > slack) continue
      const group = groups.get(other) as Valued[]
      group.push(point)
      groups.set(point, group)
      return
    }
    groups.set(point, [point])
  })
  const seen = new Set<readonly Valued[]>()
  return points.flatMap((point) => {
    const group = groups.get(point) as Valued[]
    if (seen.has(group)) return []
    seen.add(group)
    return [group]
  })
}

function mergeGroup(group: readonly Valued[], [oe, on]: readonly [number, number]): KrigingPoint {
  const variances = group.map(({ standardUncertainty }) => (standardUncertainty ?? 0) ** 2)
  if (group.length === 1 && group[0])
    return {
      east: group[0].eastingMetres - oe,
      north: group[0].northingMetres - on,
      value: group[0].value,
      errorVariance: variances[0] as number,
    }
  const exact = group.filter((_, index) => variances[index] === 0)
  const [east, north] = [
    mean(group.map((p) => p.eastingMetres)) - oe,
    mean(group.map((p) => p.northingMetres)) - on,
  ]
  if (exact.length > 0) return { east, north, value: mean(exact.map(({ value }) => value)), errorVariance: 0 }
  const weight = variances.reduce((sum, variance) => sum + 1 / variance, 0)
  const value =
    group.reduce((sum, point, index) => sum + point.value / (variances[index] as number), 0) / weight
  return { east, north, value, errorVariance: 1 / weight }
}

function reasonOf(group: readonly Valued[], unit: string): string {
  const values = group.map(({ value }) => value)
  const apart = Math.max(...values) - Math.min(...values)
  const expected = Math.sqrt(
    2 * mean(group.map(({ standardUncertainty }) => (standardUncertainty ?? 0) ** 2)),
  )
  const said = `They stand at one place, ${Number(apart.toPrecision(3))} ${unit} apart; their mean, weighted by what is known of each, is used.`
  return apart <= 3 * expected || apart === 0
    ? said
    : `${said} That is more than their uncertainty explains: look at them.`
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
