/** A column of ground with water rising through it, per square metre. */
export interface HeaveColumn {
  readonly thicknessMetres: number
  /** Saturated. */
  readonly unitWeightKnPerM3: number
  readonly unitWeightOfWater: number
  /** At the base of the column; the water stands at its top. */
  readonly porePressureAtBaseKpa: number
}

/** What lifts the column and what holds it down, by both forms in use; they differ, so say which is meant. */
export interface HeaveBalance {
  /** Total stress form: total vertical stress at the base against the pore pressure there. */
  readonly totalStressKpa: number
  /** Effective stress form: seepage force against submerged weight, kN on a square metre. */
  readonly seepageForceKn: number
  readonly submergedWeightKn: number
  /** Mean upward hydraulic gradient. */
  readonly gradient: number
}

/** The balance of a column against heave (EN 1997-1, 2.9a and 2.9b), without partial factors. */
export function heaveBalance(column: HeaveColumn): HeaveBalance {
  const { thicknessMetres, unitWeightKnPerM3, unitWeightOfWater, porePressureAtBaseKpa } = column
  const seepageForceKn = porePressureAtBaseKpa - unitWeightOfWater * thicknessMetres
  return {
    totalStressKpa: unitWeightKnPerM3 * thicknessMetres,
    seepageForceKn,
    submergedWeightKn: (unitWeightKnPerM3 - unitWeightOfWater) * thicknessMetres,
    gradient: seepageForceKn / (unitWeightOfWater * thicknessMetres),
  }
}

/** Upward gradient at which ground of a particle density (relative to water) and void ratio is lifted (Terzaghi). */
export const criticalGradientOfGrains = (relativeDensity: number, voidRatio: number): number =>
  (relativeDensity - 1) / (1 + voidRatio)

/** Critical over actual upward gradient; above 1 the ground is heavier than the seepage. NaN where none flows upwards. */
export const ratioAgainstHeave = (criticalGradient: number, upwardGradient: number): number =>
  upwardGradient > 0 ? criticalGradient / upwardGradient : Number.NaN

/** Share of a resistance that an action uses up, of the same unit and both with their factors in them: above 1 is too much. */
export const shareOfResistance = (destabilising: number, stabilising: number): number =>
  stabilising > 0 ? destabilising / stabilising : Number.NaN

/** Skempton's B̄ = Δu / Δσ₁ (1954): share of a change of major stress that the pore water takes; NaN without one. */
export const porePressureCoefficient = (changeKpa: number, majorStressChangeKpa: number): number =>
  majorStressChangeKpa === 0 ? Number.NaN : changeKpa / majorStressChangeKpa
