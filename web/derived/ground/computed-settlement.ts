import type { SiteDocument } from '#contract/site-document.ts'
import {
  type SettlementFromPressures,
  settlementFromPressures,
} from '#domain/ground/consolidation/settlement-from-pressures.ts'
import { compressibleLayers, excessOfTips } from '#domain/ground/consolidation/string-of-tips.ts'
import type { GroundPoint } from '#domain/ground/kriging/ground-point.ts'
import type { Outcome } from '#domain/outcome.ts'
import { levelOfDeepest, type pressuresAt } from './string-pressures.ts'

/** A hole whose tips stand in compressible layers, with the settlement that their pressures explain. */
export interface ComputedString {
  readonly location: string
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly outcome: Outcome<SettlementFromPressures>
  /** A tip in a compressible layer is silent: what the others explain is not all. */
  readonly partLate: boolean
}

/** Pressures are compared from the end of the first stage, readings before any works being its zero; before that, from four weeks before. */
export function consolidationStart(stages: SiteDocument['stages'], atEpochMs: number): number {
  const first = stages[0]?.endsAt ?? null
  return first !== null && first < atEpochMs ? first : atEpochMs - 28 * 86_400_000
}

/**
 * Settlement of every string by itself: still water of its deepest tip at both instants, no layer taken to drain at once
 * but the ground above the first.
 */
export function computedStrings(
  { locations, strata }: Pick<SiteDocument, 'locations' | 'strata'>,
  read: ReturnType<typeof pressuresAt>,
  unitWeightKnPerM3: number,
): readonly ComputedString[] {
  return locations.flatMap(({ id, eastingMetres, northingMetres }): ComputedString[] => {
    const tips = read.filter(({ location }) => location === id)
    const layers = compressibleLayers(
      strata.filter(({ location }) => location === id),
      new Set(),
    )
    const inside = tips.filter(({ levelMetres }) =>
      layers.some((layer) => levelMetres <= layer.topLevelMetres && levelMetres > layer.baseLevelMetres),
    )
    if (inside.length === 0) return []
    const rest = levelOfDeepest(tips, unitWeightKnPerM3) ?? Number.NaN
    return [
      {
        location: id,
        eastingMetres,
        northingMetres,
        outcome: settlementFromPressures(
          layers,
          excessOfTips(tips, { start: rest, now: rest }, unitWeightKnPerM3).map((tip) =>
            Number.isFinite(rest) ? tip : { ...tip, excessAtStartKpa: null, excessNowKpa: null },
          ),
        ),
        partLate: inside.some(({ late }) => late),
      },
    ]
  })
}

/** Strings as points of a surface; how far m_v is out is not known, so no uncertainty is. */
export const pointsOfStrings = (strings: readonly ComputedString[]): readonly GroundPoint[] =>
  strings.map(({ location, eastingMetres, northingMetres, outcome, partLate }) => ({
    id: location,
    eastingMetres,
    northingMetres,
    value: outcome.ok ? outcome.value.settlementMm : null,
    standardUncertainty: null,
    late: partLate,
  }))
