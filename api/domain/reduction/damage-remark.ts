import { beamStrains, bjerrumLimits, damageCategory, skemptonLimits } from '../ground/building-damage.ts'
import { numberText, quantityText } from './number-text.ts'
import type { DerivedBundle, DerivedOutput, StructureBeam } from './rules/derived-bundle.ts'

/**
 * What published guidance says of a distortion, for whoever must go and look. Where it says nothing of a value, nothing is
 * said: its silence must not be taken for a clearance.
 */
export function damageRemarks(
  { structure }: DerivedBundle,
  { measure }: DerivedOutput,
  value: number | null,
): readonly string[] {
  if (value === null || value === 0) return []
  if (measure === 'angular-distortion') return limitRemarks(value)
  return measure === 'deflection-ratio' && structure ? strainRemarks(structure, value) : []
}

function limitRemarks(mmPerMetre: number): readonly string[] {
  const radians = Math.abs(mmPerMetre) / 1000
  const reached = [
    ...skemptonLimits.map((limit) => ({ ...limit, source: 'Skempton and MacDonald 1956' })),
    ...bjerrumLimits.map((limit) => ({ ...limit, source: 'Bjerrum 1963' })),
  ].filter((limit) => radians >= limit.radians)
  if (reached.length === 0) return []
  const texts = reached.map(
    ({ event, radians, source }) => `${event} from 1/${Math.round(1 / radians)} (${source})`,
  )
  return [
    `Angular distortion 1/${Math.round(1 / radians)}. Published limits that it reaches: ${texts.join('; ')}. They are of other buildings: look at this one.`,
  ]
}

function strainRemarks(structure: StructureBeam, mmPerMetre: number): readonly string[] {
  const { heightMetres, lengthMetres, stiffnessRatio } = structure
  const mode = mmPerMetre > 0 ? 'sagging' : 'hogging'
  const { bending, diagonal } = beamStrains({ ...structure, mode }, Math.abs(mmPerMetre) / 10)
  const strain = Math.max(bending, diagonal)
  const { category, onBoundary } = damageCategory(strain)
  const percent = (of: number) => quantityText(Number(of.toPrecision(2)), '%')
  return [
    `Guidance, no verdict: taken as a deep beam ${numberText(heightMetres)} m high and ${numberText(lengthMetres)} m long, ${mode}, E/G ${numberText(stiffnessRatio)} (Burland and Wroth 1974), the deflection ratio alone makes tensile strains of ${percent(bending)} in bending and ${percent(diagonal)} diagonally: category ${category} of damage${onBoundary ? ', on the line to the next,' : ''} after Burland 1995. Horizontal strain of the ground, movement before the first reading and the state of the structure are not in it.`,
  ]
}
