import type { WorksAlignment } from '#domain/geometry/alignment-of-works.ts'
import type { Works } from '#domain/site/site.ts'
import type { SettlementPoint } from '../settlement-points.ts'

/** What the records say of a tunnel along an alignment; null where they do not. */
export interface RecordedDrive {
  readonly fromEpochMs: number | null
  readonly diameterMetres: number | null
  /** Of its axis below ground. */
  readonly axisDepthMetres: number | null
}

export function recordedDrive(works: Works, alignment: string, groundLevelMetres: number): RecordedDrive {
  const properties = works.features.find((one) => one.properties.id === alignment)?.properties
  const [top, base] = [properties?.topLevelMetres ?? null, properties?.baseLevelMetres ?? null]
  const known = top !== null && base !== null && top > base
  return {
    fromEpochMs: properties?.fromEpochMs ?? null,
    diameterMetres: known ? top - base : null,
    axisDepthMetres: known ? groundLevelMetres - (top + base) / 2 : null,
  }
}

/** The chainage across which most points stand, of whole metres; of equal ones that in the middle of its points. Null where none stands beside it. */
export function busiestChainage(
  alignment: WorksAlignment,
  points: readonly SettlementPoint[],
  withinMetres: number,
): number | null {
  const chainages = points.flatMap(({ eastingMetres, northingMetres }) => {
    const station = alignment.stationOf([eastingMetres, northingMetres])
    return station === null || station.beyond !== null ? [] : [station]
  })
  let best: { chainageMetres: number; spread: number; away: number } | null = null
  for (const { chainageMetres } of chainages) {
    const near = chainages.filter((one) => Math.abs(one.chainageMetres - chainageMetres) <= withinMetres)
    // Offsets that differ count, not points: a trough is seen across the line, not along it.
    const spread = new Set(near.map(({ offsetMetres }) => Math.round(offsetMetres))).size
    const apart = near.reduce((sum, one) => sum + Math.abs(one.chainageMetres - chainageMetres), 0)
    const away = apart / near.length
    if (best === null || spread > best.spread || (spread === best.spread && away < best.away))
      best = { chainageMetres: Math.round(chainageMetres), spread, away }
  }
  return best?.chainageMetres ?? null
}
