import { numberText, operandText, quantityText } from '../number-text.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './derived-bundle.ts'
import { bitsOf, type Rule, sumUncertainty, type TrailSlot } from './rule.ts'
import { bitsSql, type DerivedRelations, outputsSql, slotNumbers } from './slotted-sql.ts'

/** Mean of the slots that have a value, marked incomplete when one has none: never averaged as 0. */
export const mean: Rule<{ readonly kind: 'mean' }> = {
  derive({ outputs }: DerivedBundle, _rule, read: readonly MemberValue[]) {
    const value = meanOfMembers(read.map((member) => member.value))
    return outputs.map(() => ({ value, quality: bitsOf(read) }))
  },

  shape: ({ slots }) => `mean ${slots.length}`,

  sql(example: DerivedBundle, _rule, relations: DerivedRelations) {
    const slots = slotNumbers(example.slots.length)
    return outputsSql(slots, [{ output: -1, value: knownMeanSql(slots), bits: bitsSql(slots) }], relations)
  },

  lines(_bundle, _rule, { unit }: DerivedOutput, slots: readonly TrailSlot[]) {
    const known = slots.flatMap(({ source }) =>
      source?.value == null ? [] : [{ ...source, value: source.value }],
    )
    if (known.length === 0) return []
    const sum = known.reduce((total, { value }) => total + value, 0)
    const terms = known.map(({ value }, index) => (index === 0 ? numberText(value) : operandText(value)))
    const count = `${known.length} of ${slots.length} gauges`
    return [
      {
        kind: 'mean',
        formula: 'F = (F₁ + F₂ + … + Fₙ) / n',
        sentence: `Mean of ${count}: (${terms.join(' + ')}) / ${known.length} = ${quantityText(sum / known.length, unit)}.`,
        input: sum,
        inputUnit: unit,
        output: sum / known.length,
        outputUnit: unit,
        standardUncertainty: meanUncertainty(known.map(({ standardUncertainty }) => standardUncertainty)),
      },
    ]
  },
}

/** `meanOfMembers` over columns of slots. */
export function knownMeanSql(slots: readonly number[]): string {
  const sum = slots.map((slot) => `coalesce(v${slot}, 0e0)`).join(' + ')
  const count = slots.map((slot) => `(v${slot} is not null)::INTEGER`).join(' + ')
  return `((${sum}) / nullif(${count}, 0))`
}

/** Mean of the members that have a value; null when none has. */
export function meanOfMembers(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null)
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length
}

/** Standard uncertainty of a mean of independent members; null where one is unknown. */
export const meanUncertainty = (members: readonly (number | null)[]): number | null => {
  const total = sumUncertainty(members)
  return total === null || members.length === 0 ? null : total / members.length
}
