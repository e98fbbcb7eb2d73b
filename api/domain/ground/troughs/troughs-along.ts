import type { Station } from '../../geometry/alignment.ts'
import type { SitePoint } from '../../geometry/site-grid.ts'
import type { Outcome } from '../../outcome.ts'
import {
  type SettledPlace,
  type TroughAcross,
  type TroughAcrossOptions,
  troughAcross,
} from './trough-across.ts'

/** A trough at a chainage, found or refused by itself. */
export interface TroughAtChainage {
  readonly chainageMetres: number
  readonly trough: Outcome<TroughAcross>
}

/**
 * Troughs at even chainages along an alignment, each from the points of its own strip: strips are as wide as the steps, so
 * that no point counts twice.
 */
export function troughsAlong(
  places: readonly SettledPlace[],
  stationOf: (point: SitePoint) => Station | null,
  along: { readonly fromMetres: number; readonly untilMetres: number; readonly stepMetres: number },
  options: Omit<TroughAcrossOptions, 'chainageMetres' | 'withinMetres'>,
): readonly TroughAtChainage[] {
  const { fromMetres, untilMetres, stepMetres } = along
  const count = stepMetres > 0 ? Math.max(0, Math.ceil((untilMetres - fromMetres) / stepMetres)) : 0
  return Array.from({ length: count }, (_, step) => {
    const chainageMetres = fromMetres + (step + 0.5) * stepMetres
    // A point on the edge of two strips belongs to the one after it.
    const own = places.filter(({ eastingMetres, northingMetres }) => {
      const station = stationOf([eastingMetres, northingMetres])
      return station !== null && station.chainageMetres < chainageMetres + stepMetres / 2
    })
    return {
      chainageMetres,
      trough: troughAcross(own, stationOf, { ...options, chainageMetres, withinMetres: stepMetres / 2 }),
    }
  })
}
