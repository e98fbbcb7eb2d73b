/** A layer of ground from the surface down. */
export interface SoilLayer {
  readonly thicknessMetres: number
  /** Bulk, saturated below the water table. */
  readonly unitWeightKnPerM3: number
}

/**
 * Total vertical stress, kPa, at a depth below the surface of a stack of layers, plus what loads the surface.
 * Null below the last layer: nothing is known of the ground there.
 */
export function totalVerticalStressKpa(
  layers: readonly SoilLayer[],
  depthMetres: number,
  surfaceLoadKpa = 0,
): number | null {
  let stress = surfaceLoadKpa
  let top = 0
  for (const { thicknessMetres, unitWeightKnPerM3 } of layers) {
    const inLayer = Math.min(depthMetres - top, thicknessMetres)
    if (inLayer > 0) stress += inLayer * unitWeightKnPerM3
    top += thicknessMetres
  }
  return depthMetres > top + 1e-9 ? null : stress
}

/** Terzaghi: total less pore pressure, kPa. */
export const effectiveStressKpa = (totalKpa: number, porePressureKpa: number): number =>
  totalKpa - porePressureKpa

/** r_u = u / σ_v (Bishop and Morgenstern 1960); NaN where nothing weighs on the point. */
export const porePressureRatio = (porePressureKpa: number, totalVerticalKpa: number): number =>
  totalVerticalKpa > 0 ? porePressureKpa / totalVerticalKpa : Number.NaN

/**
 * Ratios against uplift of a plug of clay above an artesian layer: weight over water pressure at its base,
 * and, by the other definition in use, submerged weight over seepage force. They differ; say which is meant.
 */
export function upliftRatios(plug: {
  readonly thicknessMetres: number
  readonly unitWeightKnPerM3: number
  /** Level to which the water below the plug rises, above the plug's base. */
  readonly headAboveBaseMetres: number
  readonly unitWeightOfWater: number
}): { readonly totalStress: number; readonly effectiveStress: number } {
  const { thicknessMetres, unitWeightKnPerM3, headAboveBaseMetres, unitWeightOfWater } = plug
  const excess = headAboveBaseMetres - thicknessMetres
  return {
    totalStress: (unitWeightKnPerM3 * thicknessMetres) / (unitWeightOfWater * headAboveBaseMetres),
    effectiveStress:
      ((unitWeightKnPerM3 - unitWeightOfWater) * thicknessMetres) / (unitWeightOfWater * excess),
  }
}

/** Upward gradient at which the ground is lifted: γ′ / γ_w (Terzaghi). */
export const criticalGradient = (saturatedUnitWeight: number, unitWeightOfWater: number): number =>
  (saturatedUnitWeight - unitWeightOfWater) / unitWeightOfWater
