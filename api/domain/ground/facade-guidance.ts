import { beamStrains, type DamageCategory, damageCategory, withHorizontalStrain } from './building-damage.ts'
import type { FacadePart } from './facade-parts.ts'

/** A façade taken as a deep beam. */
export interface FacadeBeam {
  /** Null: not stated, so no strain is told. */
  readonly heightMetres: number | null
  /** Young's modulus over shear modulus. */
  readonly stiffnessRatio: number
  /** Measured by other means, extension positive; null or left out: not known. */
  readonly horizontalStrainMmPerM?: number | null
}

export interface PartWithStrain extends FacadePart {
  /** Greatest tensile strain of a beam bent like that; null where the height is not stated. */
  readonly strain: {
    readonly percent: number
    readonly standardErrorPercent: number | null
    readonly guidance: DamageCategory & { readonly onBoundary: boolean }
  } | null
}

/** A bent part of a façade with the tensile strain of a deep beam as long as it, and the published category of that strain. */
export function withStrain(part: FacadePart, beam: FacadeBeam): PartWithStrain {
  const { heightMetres, stiffnessRatio, horizontalStrainMmPerM = null } = beam
  if (heightMetres === null) return { ...part, strain: null }
  const { lengthMetres, mode } = part
  const percentOf = (ratioMmPerM: number) => {
    const bent = beamStrains({ lengthMetres, heightMetres, stiffnessRatio, mode }, ratioMmPerM / 1000)
    const extension = Math.max(0, horizontalStrainMmPerM ?? 0) / 1000
    const { bending, diagonal } = withHorizontalStrain(bent, extension, stiffnessRatio)
    return 100 * Math.max(bending, diagonal)
  }
  const percent = percentOf(part.deflectionRatioMmPerM)
  return {
    ...part,
    strain: {
      percent,
      // The strain grows with the ratio, at most linearly, so a step of one error shows its share.
      standardErrorPercent:
        part.standardErrorMmPerM === null
          ? null
          : percentOf(part.deflectionRatioMmPerM + part.standardErrorMmPerM) - percent,
      guidance: damageCategory(percent),
    },
  }
}
