import { accept, type Outcome } from '../outcome.ts'
import { type Analysis, given, reasonWithoutValue, sortOut } from './analysis.ts'
import { beamStrains, damageCategory } from './building-damage.ts'
import { type Distortion, distortionOf, type SettledPoint } from './distortion.ts'

/** A levelled point of a façade, by its distance along it. */
export interface FacadePoint {
  readonly id: string
  readonly chainageMetres: number
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
}

export type KnownFacadePoint = FacadePoint & SettledPoint

export interface FacadeResponse extends Analysis<FacadePoint, KnownFacadePoint> {
  readonly distortion: Distortion
  readonly mode: 'sagging' | 'hogging'
}

/**
 * Tilt, angular distortion and deflection ratio of a façade from its levelled points, with the strains of a deep beam
 * and the published category as guidance. Refused with fewer than three places.
 */
export function facadeResponse(
  points: readonly FacadePoint[],
  beam: { readonly heightMetres: number; readonly stiffnessRatio: number },
): Outcome<FacadeResponse> {
  const sorted = sortOut<FacadePoint, KnownFacadePoint>(points, reasonToLeaveOut)
  const found = distortionOf(sorted.used)
  if (!found.ok) return found
  const distortion = found.value
  const mode = distortion.greatestDeflectionMm > 0 ? 'sagging' : 'hogging'
  const along = sorted.used.map(({ chainageMetres }) => chainageMetres)
  const lengthMetres = Math.max(...along) - Math.min(...along)
  const { bending, diagonal } = beamStrains({ ...beam, lengthMetres, mode }, distortion.deflectionRatio)
  const percent = 100 * Math.max(bending, diagonal)
  const { category, onBoundary } = damageCategory(percent)
  const steepest = Math.max(...distortion.angularDistortionMmPerM.map(Math.abs))
  return accept({
    ...sorted,
    method:
      'Tilt from the first to the last point, slope of each bay less the tilt, distance from the straight line between the ends (Burland and Wroth 1974); strains of a deep beam of that deflection ratio.',
    parameters: [
      given('length', lengthMetres, 'm'),
      given('height', beam.heightMetres, 'm'),
      given('E/G', beam.stiffnessRatio, ''),
    ],
    found: [
      given('tilt', distortion.tiltMmPerM, 'mm/m'),
      given('greatest angular distortion', steepest, 'mm/m'),
      given('deflection ratio', 1000 * distortion.deflectionRatio, 'mm/m'),
      given('tensile strain of the beam', percent, '%'),
    ],
    remarks: [
      `Guidance, no verdict: ${mode}, category ${category}${onBoundary ? ' on the line to the next' : ''} of damage (Burland 1995) by the deflection ratio alone. Look at the building.`,
      'Horizontal strain, movement before the first levelling and what bends between the points are not in it.',
    ],
    distortion,
    mode,
  })
}

function reasonToLeaveOut({ chainageMetres, settlementMm, late }: FacadePoint): string | null {
  if (!Number.isFinite(chainageMetres)) return 'Its place along the façade is not known.'
  return reasonWithoutValue(settlementMm, late)
}
