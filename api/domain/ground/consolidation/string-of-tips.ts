import { hydrostaticKpa, unitWeightOfWaterKnPerM3 } from '../../reduction/hydrostatics.ts'
import type { StratumLayer } from '../../site/tables.ts'
import { dissipationPercent } from '../embankments/dissipation.ts'

/** A compressible layer. */
export interface CompressibleLayer {
  readonly name: string
  readonly topLevelMetres: number
  readonly baseLevelMetres: number
  /** m_v; in m² per MN. */
  readonly compressibilityM2PerMn: number
  /** A face beside ground that drains at once; there the excess pressure stays 0. */
  readonly drainsAtTop: boolean
  readonly drainsAtBase: boolean
}

/** A piezometer of a string, its excess pressure above the hydrostatic line of the same instant. */
export interface ExcessAtTip {
  readonly id: string
  readonly levelMetres: number
  /** Null: no value known. */
  readonly excessAtStartKpa: number | null
  readonly excessNowKpa: number | null
  readonly late: boolean
}

export type KnownTip = ExcessAtTip & { readonly excessAtStartKpa: number; readonly excessNowKpa: number }

/**
 * Layers of a hole whose compressibility is stated, m_v of the table in m²/kN. A face drains where the layer beyond it is
 * named as draining; the top of the first layer drains, as it is the ground's surface.
 */
export function compressibleLayers(
  strata: readonly StratumLayer[],
  draining: ReadonlySet<string>,
): readonly CompressibleLayer[] {
  const ordered = strata.toSorted((one, other) => other.topLevelMetres - one.topLevelMetres)
  return ordered.flatMap((layer, at): CompressibleLayer[] => {
    const { stratum, topLevelMetres, baseLevelMetres, compressibilityM2PerKn } = layer
    if (compressibilityM2PerKn === null || !(compressibilityM2PerKn > 0)) return []
    const [above, below] = [ordered[at - 1], ordered[at + 1]]
    return [
      {
        name: stratum,
        topLevelMetres,
        baseLevelMetres,
        compressibilityM2PerMn: 1000 * compressibilityM2PerKn,
        drainsAtTop: above === undefined || draining.has(above.stratum),
        drainsAtBase: below !== undefined && draining.has(below.stratum),
      },
    ]
  })
}

/** A tip with its pore pressures, kPa, at the start and now. */
export interface PressureAtTip {
  readonly id: string
  readonly levelMetres: number
  readonly startKpa: number | null
  readonly nowKpa: number | null
  readonly late: boolean
}

/** Excess above still water of a stated level, which may have moved between the two instants. */
export const excessOfTips = (
  tips: readonly PressureAtTip[],
  waterLevelMetres: { readonly start: number; readonly now: number },
  unitWeight = unitWeightOfWaterKnPerM3,
): readonly ExcessAtTip[] =>
  tips.map(({ id, levelMetres, startKpa, nowKpa, late }) => {
    const above = (kpa: number | null, water: number) =>
      kpa === null ? null : kpa - hydrostaticKpa(levelMetres, water, unitWeight)
    return {
      id,
      levelMetres,
      excessAtStartKpa: above(startKpa, waterLevelMetres.start),
      excessNowKpa: above(nowKpa, waterLevelMetres.now),
      late,
    }
  })

/** Share of the excess at the start that has gone at a tip, per cent; null where there was none. */
export const dissipatedAtTip = ({ excessAtStartKpa, excessNowKpa }: KnownTip): number | null =>
  dissipationPercent(excessAtStartKpa, excessNowKpa, 0)
