import { totalVerticalStressKpa } from './effective-stress.ts'

/** A layer as it was logged in a hole. */
export interface WeighedLayer {
  readonly topLevelMetres: number
  readonly baseLevelMetres: number
  /** Bulk, saturated below the water table. */
  readonly unitWeightKnPerM3: number
}

/**
 * Total vertical stress, kPa, at a level below a collar from the layers of its hole, which must follow one another from
 * the collar without a gap of more than a centimetre. Null where they do not, where the level lies below the last of
 * them, or where nothing weighs on it. Loads, fill and digging after the log are not in it.
 */
export function stressFromStrata(
  layers: readonly WeighedLayer[],
  collarLevelMetres: number,
  levelMetres: number,
): number | null {
  const downwards = layers.toSorted((one, other) => other.topLevelMetres - one.topLevelMetres)
  const joined = downwards.every(
    ({ topLevelMetres }, index) =>
      Math.abs(topLevelMetres - (downwards[index - 1]?.baseLevelMetres ?? collarLevelMetres)) <= 0.01,
  )
  if (!joined) return null
  const stress = totalVerticalStressKpa(
    downwards.map((layer) => ({
      thicknessMetres: layer.topLevelMetres - layer.baseLevelMetres,
      unitWeightKnPerM3: layer.unitWeightKnPerM3,
    })),
    collarLevelMetres - levelMetres,
  )
  return stress !== null && stress > 0 ? stress : null
}
