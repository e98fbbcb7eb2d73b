import {
  hydrostaticKpa,
  piezometricLevelMetres,
  unitWeightOfWaterKnPerM3,
} from '../reduction/hydrostatics.ts'

export interface LevelAndPressure {
  readonly levelMetres: number
  /** Above atmospheric. */
  readonly pressureKpa: number
}

/**
 * Pore pressure of still water below a stated water level, from `topLevelMetres` down: a broken line with its corner
 * at the water level, 0 above it. Levels are up positive; empty where the top is not above the base.
 */
export function hydrostaticLine(
  waterLevelMetres: number,
  topLevelMetres: number,
  baseLevelMetres: number,
  unitWeight = unitWeightOfWaterKnPerM3,
): readonly LevelAndPressure[] {
  if (!(topLevelMetres > baseLevelMetres)) return []
  const at = (levelMetres: number) => ({
    levelMetres,
    pressureKpa: hydrostaticKpa(levelMetres, waterLevelMetres, unitWeight),
  })
  const hasCorner = waterLevelMetres < topLevelMetres && waterLevelMetres > baseLevelMetres
  return [at(topLevelMetres), ...(hasCorner ? [at(waterLevelMetres)] : []), at(baseLevelMetres)]
}

export interface Tip {
  readonly id: string
  readonly levelMetres: number
  /** Null: no current value. */
  readonly porePressureKpa: number | null
}

/** Tips from the highest down; of equal levels, by name. */
export function orderTips<T extends Pick<Tip, 'id' | 'levelMetres'>>(tips: readonly T[]): readonly T[] {
  return tips.toSorted((a, b) => b.levelMetres - a.levelMetres || (a.id < b.id ? -1 : 1))
}

/** What holds between two tips next to each other in level. Null where either has no current value. */
export interface TipGradient {
  readonly upper: string
  readonly lower: string
  readonly apartMetres: number
  /** Rise of pore pressure with depth; still water gives its unit weight. */
  readonly pressureGradientKpaPerMetre: number | null
  /** Rise of piezometric level with depth, m/m: positive drives water upwards, negative down. */
  readonly upwardHydraulicGradient: number | null
}

/**
 * Gradients between tips that follow one another in level. A tip without a current value leaves its two gaps
 * unknown; nothing is drawn past it. Tips at one level have no gradient and are passed over.
 */
export function gradientsBetweenTips(
  tips: readonly Tip[],
  unitWeight = unitWeightOfWaterKnPerM3,
): readonly TipGradient[] {
  const ordered = orderTips(tips)
  return ordered.slice(1).flatMap((lower, index): TipGradient[] => {
    const upper = ordered[index] as Tip
    const apartMetres = upper.levelMetres - lower.levelMetres
    if (apartMetres <= 0) return []
    const known = upper.porePressureKpa !== null && lower.porePressureKpa !== null
    const rise = known ? (lower.porePressureKpa as number) - (upper.porePressureKpa as number) : null
    const headRise = known
      ? piezometricLevelMetres(lower.levelMetres, lower.porePressureKpa as number, unitWeight) -
        piezometricLevelMetres(upper.levelMetres, upper.porePressureKpa as number, unitWeight)
      : null
    return [
      {
        upper: upper.id,
        lower: lower.id,
        apartMetres,
        pressureGradientKpaPerMetre: rise === null ? null : rise / apartMetres,
        upwardHydraulicGradient: headRise === null ? null : headRise / apartMetres,
      },
    ]
  })
}
