import type { SitePoint } from '../../geometry/site-grid.ts'
import { accept, type Outcome } from '../../outcome.ts'
import { type GroundPoint, type LeftOutPoint, reasonToLeaveOut } from './ground-point.ts'
import { type Estimate, krigeAt } from './krige-at.ts'
import type { KrigingOptions } from './kriging-options.ts'
import { buildSystem } from './kriging-system.ts'
import { placesOf } from './places-of-points.ts'
import { variogramForPlaces } from './variogram-for-places.ts'

export interface KrigedAlong {
  /** One for each target. */
  readonly estimates: readonly Estimate[]
  /** Whole sentence. */
  readonly method: string
  readonly pointsLeftOut: readonly LeftOutPoint[]
  readonly pointsMerged: readonly { readonly ids: readonly string[]; readonly reason: string }[]
}

/**
 * Estimates along a line of points, where a surface is refused: points on one line, two, or one. Barriers are not
 * regarded. A plane through points on one line is refused; across the line the estimate is worth what its variance says.
 */
export function krigedAlong(
  points: readonly GroundPoint[],
  targets: readonly SitePoint[],
  options: Pick<KrigingOptions, 'unit' | 'drift' | 'variogram'>,
): Outcome<KrigedAlong> {
  const used = points.filter((point) => reasonToLeaveOut(point) === null)
  const placed = placesOf(used as (GroundPoint & { readonly value: number })[], options.unit)
  if (!placed.ok) return placed
  const { places, origin, merged, extentMetres } = placed.value
  const chosen = variogramForPlaces(places, options)
  if (!chosen.ok) return chosen
  const { variogram, sentence, flatDeviation } = chosen.value
  const local = targets.map(([east, north]) => [east - origin[0], north - origin[1]] as const)
  const about = {
    pointsLeftOut: points.flatMap((point) => {
      const reason = reasonToLeaveOut(point)
      return reason === null ? [] : [{ id: point.id, reason }]
    }),
    pointsMerged: merged,
  }
  if (variogram === null) {
    const flat = { value: places[0]?.value ?? Number.NaN, variance: (flatDeviation ?? Number.NaN) ** 2 }
    return accept({ ...about, estimates: targets.map(() => flat), method: sentence })
  }
  const farthest = local.reduce((most, [e, n]) => Math.max(most, Math.hypot(e, n)), extentMetres)
  const system = buildSystem(places, {
    variogram,
    drift: options.drift === 'universal' ? 'plane' : 'mean',
    farthestMetres: 2 * farthest + 1,
    placeMetres: Math.max(1e-6 * extentMetres, 1e-6),
    ways: null,
  })
  if (!system.ok) return system
  return accept({
    ...about,
    estimates: local.map(([east, north]) => krigeAt(system.value, east, north)),
    method: `${options.drift === 'universal' ? 'Universal' : 'Ordinary'} kriging at ${targets.length} places. ${sentence}`,
  })
}
