/** An angular distortion, rad, at which something has been seen to happen to buildings. */
export interface DistortionLimit {
  readonly event: string
  readonly radians: number
}

/** Skempton and MacDonald (1956). */
export const skemptonLimits: readonly DistortionLimit[] = [
  { event: 'structural damage', radians: 1 / 150 },
  { event: 'first cracking', radians: 1 / 300 },
  { event: 'design limit', radians: 1 / 500 },
]

/** Bjerrum (1963). */
export const bjerrumLimits: readonly DistortionLimit[] = [
  { event: 'machinery sensitive to settlement', radians: 1 / 750 },
  { event: 'frames with diagonals', radians: 1 / 600 },
  { event: 'buildings where cracking is not permissible', radians: 1 / 500 },
  { event: 'first cracks', radians: 1 / 300 },
  { event: 'tilt of high buildings noticeable', radians: 1 / 250 },
  { event: 'structural damage', radians: 1 / 150 },
]

/** Category of damage (Burland 1995, after Boscardin and Cording 1989) and its limiting tensile strain. */
export interface DamageCategory {
  readonly category: '0' | '1' | '2' | '3' | '4-5'
  /** Greatest strain of the category, %; it belongs to it, for the source draws no line there. Null: no greatest. */
  readonly upToPercent: number | null
}

export const damageCategories: readonly DamageCategory[] = [
  { category: '0', upToPercent: 0.05 },
  { category: '1', upToPercent: 0.075 },
  { category: '2', upToPercent: 0.15 },
  { category: '3', upToPercent: 0.3 },
  { category: '4-5', upToPercent: null },
]

/** The category of a tensile strain, %, and whether it stands on the line to the next: there the source does not decide. */
export function damageCategory(strainPercent: number): DamageCategory & { readonly onBoundary: boolean } {
  const found = damageCategories.find(
    ({ upToPercent }) => upToPercent === null || strainPercent <= upToPercent,
  ) ?? { category: '4-5' as const, upToPercent: null }
  return { ...found, onBoundary: strainPercent === found.upToPercent }
}

/** Crack widths by category 0 to 5, as a guide: the width alone must not decide (Burland et al. 1977). */
export const crackWidthGuide: readonly string[] = [
  '<0.1 mm',
  'up to 1 mm',
  'up to 5 mm',
  '5-15 mm or several >=3 mm',
  '15-25 mm',
  '>25 mm',
]

/** Class of risk by greatest slope and settlement (Rankin 1988, from memory). Both limits are exclusive; null: none. */
export interface RiskClass {
  readonly name: 'negligible' | 'slight' | 'moderate' | 'high'
  /** One over the greatest slope. */
  readonly slopeBelowOneIn: number | null
  readonly settlementBelowMm: number | null
}

export const riskClasses: readonly RiskClass[] = [
  { name: 'negligible', slopeBelowOneIn: 500, settlementBelowMm: 10 },
  { name: 'slight', slopeBelowOneIn: 200, settlementBelowMm: 50 },
  { name: 'moderate', slopeBelowOneIn: 50, settlementBelowMm: 75 },
  { name: 'high', slopeBelowOneIn: null, settlementBelowMm: null },
]

/** The first class under both of whose limits a settlement, mm, and the greatest slope lie. */
export const riskClass = (settlementMm: number, slope: number): RiskClass =>
  riskClasses.find(
    ({ slopeBelowOneIn, settlementBelowMm }) =>
      (slopeBelowOneIn === null || slope < 1 / slopeBelowOneIn) &&
      (settlementBelowMm === null || settlementMm < settlementBelowMm),
  ) ?? (riskClasses.at(-1) as RiskClass)

/** Young's over shear modulus of an isotropic wall with Poisson's ratio 0.3. */
export const usualStiffnessRatio = 2.6

/** A building as a deep beam (Burland and Wroth 1974). */
export interface DeepBeam {
  readonly lengthMetres: number
  readonly heightMetres: number
  /** Young's modulus over shear modulus: 2.6 for an isotropic wall with Poisson's ratio 0.3. */
  readonly stiffnessRatio: number
  readonly mode: 'sagging' | 'hogging'
}

/** Greatest tensile strains, in the unit of the deflection ratio. */
export interface BeamStrains {
  readonly bending: number
  readonly diagonal: number
}

/**
 * Strains of a deep beam bent to a deflection ratio Δ/L. Its neutral axis lies at mid-height when it sags and at its
 * base when it hogs: there the foundations hold it.
 */
export function beamStrains(beam: DeepBeam, deflectionRatio: number): BeamStrains {
  const { lengthMetres: L, heightMetres: H, stiffnessRatio, mode } = beam
  const inertia = mode === 'hogging' ? H ** 3 / 3 : H ** 3 / 12
  const farthest = mode === 'hogging' ? H : H / 2
  return {
    bending:
      deflectionRatio / (L / (12 * farthest) + (3 * inertia * stiffnessRatio) / (2 * farthest * L * H)),
    diagonal: deflectionRatio / (1 + (H * L * L) / (18 * inertia * stiffnessRatio)),
  }
}

/** The same with a horizontal tensile strain of the ground, in the same unit (Burland 1995, Mair et al. 1996; from memory). */
export function withHorizontalStrain(
  { bending, diagonal }: BeamStrains,
  horizontal: number,
  stiffnessRatio: number,
): BeamStrains {
  return {
    bending: bending + horizontal,
    diagonal: horizontal * (1 - stiffnessRatio / 4) + Math.hypot((horizontal * stiffnessRatio) / 4, diagonal),
  }
}
