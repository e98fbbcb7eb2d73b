import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given } from '../analysis.ts'
import {
  type BeamStrains,
  beamStrains,
  type DamageCategory,
  damageCategory,
  withHorizontalStrain,
} from '../building-damage.ts'
import { slopeAt, type Trough } from '../trough.ts'
import { type BendingPart, partsOverTrough } from './building-over-trough.ts'

/** A wall across a tunnel, taken as a deep beam; offsets from the middle of the trough, which may lie beside the tunnel. */
export interface WallOverTunnel {
  readonly id: string
  readonly fromOffsetMetres: number
  readonly toOffsetMetres: number
  readonly heightMetres: number
  /** Young's modulus over shear modulus: 2.6 for an isotropic wall with Poisson's ratio 0.3. */
  readonly stiffnessRatio: number
}

export interface PartResponse extends BendingPart {
  /** By bending alone. */
  readonly strains: BeamStrains
  /** With the horizontal strain of the ground, of which only extension counts. */
  readonly combined: BeamStrains
  readonly criticalStrain: number
  readonly guidance: DamageCategory & { readonly onBoundary: boolean }
}

export interface BuildingResponse extends Analysis<WallOverTunnel> {
  readonly parts: readonly PartResponse[]
  /** Of the ground under the wall, mm per metre. */
  readonly steepestSlopeMmPerM: number
}

/**
 * A wall over a trough, as if it followed the ground: parts between the turns of the trough, deflection ratio, mean
 * horizontal strain, strains of a deep beam and the published category of damage. Refused for a wall without length or
 * height.
 */
export function buildingResponse(
  trough: Trough,
  axisDepthMetres: number,
  wall: WallOverTunnel,
): Outcome<BuildingResponse> {
  const { fromOffsetMetres, toOffsetMetres, heightMetres, stiffnessRatio } = wall
  if (!(toOffsetMetres > fromOffsetMetres && heightMetres > 0 && stiffnessRatio > 0 && axisDepthMetres > 0))
    return reject({
      code: 'wall-unfit',
      value: wall.id,
      message: `Wall ${wall.id} needs its ends in the order of their offsets, a height, a stiffness ratio and a depth of the axis above 0. Correct it.`,
    })
  const parts = partsOverTrough(trough, axisDepthMetres, fromOffsetMetres, toOffsetMetres).map((part) => {
    const lengthMetres = part.toOffsetMetres - part.fromOffsetMetres
    const beam = { lengthMetres, heightMetres, stiffnessRatio, mode: part.mode }
    const strains = beamStrains(beam, part.deflectionRatio)
    const combined = withHorizontalStrain(strains, Math.max(0, part.meanHorizontalStrain), stiffnessRatio)
    const criticalStrain = Math.max(combined.bending, combined.diagonal)
    return { ...part, strains, combined, criticalStrain, guidance: damageCategory(100 * criticalStrain) }
  })
  const ends = [fromOffsetMetres, toOffsetMetres, -trough.widthMetres, trough.widthMetres]
  const slopes = ends
    .filter((offset) => offset >= fromOffsetMetres && offset <= toOffsetMetres)
    .map((offset) => Math.abs(slopeAt(trough, offset)))
  return accept({
    method:
      'The wall follows the ground as if it had no stiffness, parted where the trough turns (Mair, Taylor and Burland 1996); deep beam of Burland and Wroth 1974 with horizontal strain (Burland 1995, from memory).',
    parameters: [
      given('from offset', fromOffsetMetres, 'm'),
      given('to offset', toOffsetMetres, 'm'),
      given('height', heightMetres, 'm'),
      given('E/G', stiffnessRatio, ''),
      given('depth of the axis', axisDepthMetres, 'm'),
    ],
    found: parts.flatMap((part) => [
      given(`deflection ratio, ${part.mode}`, 1000 * part.deflectionRatio, 'mm/m'),
      given(`mean horizontal strain, ${part.mode}`, 1000 * part.meanHorizontalStrain, 'mm/m'),
      given(`critical tensile strain, ${part.mode}`, 100 * part.criticalStrain, '%'),
    ]),
    used: [wall],
    leftOut: [],
    remarks: [
      `Guidance, no verdict: ${parts.map(({ mode, guidance }) => `${mode}, category ${guidance.category}${guidance.onBoundary ? ' on the line to the next' : ''}`).join('; ')} (Burland 1995). The categories are of tensile strain in brickwork.`,
      'A real wall is stiffer than the ground, so its strains are mostly smaller; earlier movement, its state and its joints are not in it. Look at the wall.',
    ],
    parts,
    steepestSlopeMmPerM: Math.max(...slopes),
  })
}
