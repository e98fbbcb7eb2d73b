import { numberText, operandText, quantityText } from '../number-text.ts'
import { quality } from '../quality.ts'
import { sqlBind, sqlNumber, sqlPositive } from '../sql-number.ts'
import { placeOfStud, type StudLengths, studDerivatives, studMovement } from '../three-studs.ts'
import type { DerivedBundle, DerivedOutput, MemberValue, Term } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot, weightedUncertainty } from './rule.ts'
import { bitsSql, type DerivedRelations, outputsSql, slotNumbers } from './slotted-sql.ts'

interface ThreeStuds {
  readonly kind: 'three-studs'
  readonly zero: StudLengths
}

/** Outputs by number. */
export const studOutputs = { opening: 0, shear: 1 } as const

/**
 * Opening and shear of a crack from the lengths AB, AC and BC between three studs (slots 0, 1, 2), against those at zero.
 * All three are required: else null and incomplete; lengths that make no triangle give null and are marked so.
 */
export const threeStuds: Rule<ThreeStuds> = {
  derive({ outputs }: DerivedBundle, { zero }, read: readonly MemberValue[]) {
    const lengths = lengthsOf(read.map(({ value }) => value))
    const moved = lengths && studMovement(zero, lengths)
    const movement = moved?.ok ? moved.value : null
    const bits = bitsOf(read) | (lengths && !movement ? quality.notComputable : 0)
    return outputs.map(({ of }) => ({
      value: movement && (of === studOutputs.shear ? movement.shearMm : movement.openingMm),
      quality: bits,
    }))
  },

  shape: (_bundle, { zero: { ab, ac, bc } }) => `three-studs ${ab} ${ac} ${bc}`,

  sql({ outputs }: DerivedBundle, { zero }, relations: DerivedRelations) {
    const from = placeOfStud(zero)
    const x = `((v0 * v0 + v1 * v1 - v2 * v2) / (2 * ${sqlPositive('v0')}))`
    const y = sqlBind(x, 'x', `sqrt(${sqlPositive('v1 * v1 - x * x')})`)
    const known = 'v0 is not null and v1 is not null and v2 is not null'
    const made = outputs.map(({ of }) => ({
      output: of === 'whole' ? -1 : of,
      value:
        of === studOutputs.shear
          ? `case when ${y} is not null then ${x} - ${sqlNumber(from?.x ?? 0)} end`
          : `(${y} - ${sqlNumber(from?.y ?? 0)})`,
      bits: `(${bitsSql(slotNumbers(3))} | case when ${known} and ${y} is null then ${quality.notComputable} else 0 end)`,
    }))
    return outputsSql(slotNumbers(3), made, relations)
  },

  lines(_bundle, { zero }, output: DerivedOutput, slots: readonly TrailSlot[]) {
    const lengths = lengthsOf(slots.map(({ source }) => source?.value ?? null))
    const [from, to] = [placeOfStud(zero), lengths && placeOfStud(lengths)]
    if (!lengths || !from || !to) return []
    const { ab, ac, bc } = lengths
    const shear = output.of === studOutputs.shear
    const [now, before] = shear ? [to.x, from.x] : [to.y, from.y]
    const common = { kind: 'three-studs', outputUnit: output.unit }
    return [
      {
        ...common,
        formula: 'x = (AB² + AC² − BC²) / (2 AB)',
        sentence: `Stud C stands along AB, from A: (${numberText(ab)}² + ${numberText(ac)}² − ${numberText(bc)}²) / (2 × ${numberText(ab)}) = ${quantityText(to.x, output.unit)}.`,
        input: ac,
        inputUnit: output.unit,
        output: to.x,
        standardUncertainty: null,
      },
      ...(shear
        ? []
        : [
            {
              ...common,
              formula: 'y = √(AC² − x²)',
              sentence: `It stands away from AB by the root of: ${numberText(ac)}² − ${operandText(to.x)}² = ${numberText(ac * ac - to.x * to.x)}; the root is ${quantityText(to.y, output.unit)}.`,
              input: to.x,
              inputUnit: output.unit,
              output: to.y,
              standardUncertainty: null,
            },
          ]),
      {
        ...common,
        formula: shear ? 'shear = x − x₀' : 'opening = y − y₀',
        sentence: `At zero it stood at ${numberText(before)}, by lengths ${numberText(zero.ab)}, ${numberText(zero.ac)} and ${numberText(zero.bc)}: ${numberText(now)} − ${operandText(before)} = ${quantityText(now - before, output.unit)}.`,
        input: now,
        inputUnit: output.unit,
        output: now - before,
        standardUncertainty: weightedUncertainty(
          threeStudsTerms(lengths, output).map(({ slot, weight }) => ({
            weight,
            standardUncertainty: slots[slot]?.source?.standardUncertainty ?? null,
          })),
        ),
      },
    ]
  },
}

/** Weights of the lengths in an output, near some lengths: its derivatives there. */
export const threeStudsTerms = (near: StudLengths, { of }: DerivedOutput): readonly Term[] =>
  studDerivatives(near)[of === studOutputs.shear ? 'shear' : 'opening'].map((weight, slot) => ({
    slot,
    weight,
  }))

function lengthsOf([ab = null, ac = null, bc = null]: readonly (number | null)[]): StudLengths | null {
  return ab === null || ac === null || bc === null ? null : { ab, ac, bc }
}
