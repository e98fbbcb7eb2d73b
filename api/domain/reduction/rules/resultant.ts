import { numberText, operandText, quantityText } from '../number-text.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot } from './rule.ts'
import { bitsSql, type DerivedRelations, outputsSql, slotNumbers } from './slotted-sql.ts'

/** √(x² + y² + z²) of components at right angles, all of them required: else null and incomplete. Never negative. */
export const resultant: Rule<{ readonly kind: 'resultant' }> = {
  derive({ outputs }: DerivedBundle, _rule, read: readonly MemberValue[]) {
    const value = resultantOf(read.map((member) => member.value))
    return outputs.map(() => ({ value, quality: bitsOf(read) }))
  },

  shape: ({ slots }) => `resultant ${slots.length}`,

  sql(example: DerivedBundle, _rule, relations: DerivedRelations) {
    const slots = slotNumbers(example.slots.length)
    const squares = slots.map((slot) => `v${slot} * v${slot}`).join(' + ')
    return outputsSql(slots, [{ output: -1, value: `sqrt(${squares})`, bits: bitsSql(slots) }], relations)
  },

  lines(_bundle, _rule, { unit }: DerivedOutput, slots: readonly TrailSlot[]) {
    const values = slots.map(({ source }) => source?.value ?? null)
    const value = resultantOf(values)
    if (value === null) return []
    const squares = values.map((one) => `${operandText(one ?? 0)}²`)
    const sum = values.reduce((total: number, one) => total + (one ?? 0) ** 2, 0)
    return [
      {
        kind: 'resultant',
        formula: 'r = √(x² + y² + z²)',
        sentence: `Resultant of ${slots.map(({ point }) => point).join(', ')}, the root of ${numberText(sum)}: ${squares.join(' + ')} = ${numberText(sum)}; its root is ${quantityText(value, unit)}.`,
        input: sum,
        inputUnit: `${unit}²`,
        output: value,
        outputUnit: unit,
        standardUncertainty: resultantUncertainty(
          values,
          slots.map(({ source }) => source?.standardUncertainty ?? null),
        ),
      },
    ]
  },
}

/** Root of the sum of squares; null where a component is missing. */
export function resultantOf(components: readonly (number | null)[]): number | null {
  let sum = 0
  for (const component of components) {
    if (component === null) return null
    sum += component * component
  }
  return Math.sqrt(sum)
}

/** √Σ(x·u)² / r (JCGM 100, eq. 10); of a resultant of nothing the greatest of its components' own. Null where one is unknown. */
export function resultantUncertainty(
  components: readonly (number | null)[],
  uncertainties: readonly (number | null)[],
): number | null {
  const value = resultantOf(components)
  if (value === null || uncertainties.some((one) => one === null)) return null
  if (value === 0) return Math.max(0, ...uncertainties.map((one) => one ?? 0))
  return Math.hypot(...components.map((one, index) => (one ?? 0) * (uncertainties[index] ?? 0))) / value
}
