import { cumulativeDeflection, type FixedEnd, greatestDeflection } from '../cumulative-deflection.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import type { TrailStep } from '../trail-step.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './derived-bundle.ts'
import { bitsOf, type Rule, sumUncertainty, type TrailSlot } from './rule.ts'
import { bitsSql, type DerivedRelations, type OutputSql, outputsSql, slotNumbers } from './slotted-sql.ts'

interface Cumulative {
  readonly kind: 'cumulative'
  readonly fixedEnd: FixedEnd
}

/**
 * Sums from the still end: each needs every segment between it and that end, and the greatest of them (`whole`)
 * every segment: else null and incomplete.
 */
export const cumulative: Rule<Cumulative> = {
  derive({ outputs }: DerivedBundle, { fixedEnd }, read: readonly MemberValue[]) {
    const sums = cumulativeDeflection(
      read.map(({ value }) => value),
      fixedEnd,
    )
    return outputs.map(({ of }) => {
      if (of === 'whole') return { value: greatestDeflection(sums), quality: bitsOf(read) }
      const used = fixedEnd === 'toe' ? read.slice(of) : read.slice(0, of + 1)
      return { value: sums[of] ?? null, quality: bitsOf(used) }
    })
  },

  shape: ({ slots }, { fixedEnd }) => `cumulative ${fixedEnd} ${slots.length}`,

  sql(example: DerivedBundle, { fixedEnd }, relations: DerivedRelations) {
    const slots = slotNumbers(example.slots.length)
    const outward = fixedEnd === 'toe' ? slots.toReversed() : slots
    const sign = fixedEnd === 'toe' ? '+' : '-'
    const places = outward.map((slot, index): OutputSql => {
      const used = outward.slice(0, index + 1)
      const value = used.map((from) => `${sign} v${from}`).join(' ')
      return { output: slot, value: `(0e0 ${value})`, bits: bitsSql(used) }
    })
    const sums = places.map(({ value }) => value).join(', ')
    const farthest = places.at(-1)?.value ?? 'null'
    // greatest and least pass over nulls, so the sum over all segments is asked first.
    const extreme = `case when ${farthest} is null then null when greatest(${sums}) >= -least(${sums}) then greatest(${sums}) else least(${sums}) end`
    return outputsSql(slots, [...places, { output: -1, value: extreme, bits: bitsSql(slots) }], relations)
  },

  lines(_bundle, { fixedEnd }, output: DerivedOutput, slots: readonly TrailSlot[]) {
    const outward = fixedEnd === 'toe' ? slots.toReversed() : slots
    const { of } = output
    const count = of === 'whole' ? slots.length : fixedEnd === 'toe' ? slots.length - of : of + 1
    const lines = sumLines(outward.slice(0, count), fixedEnd)
    return of === 'whole' && lines.length === slots.length ? [...lines, ...greatestLine(lines)] : lines
  },
}

function sumLines(outward: readonly TrailSlot[], fixedEnd: FixedEnd): readonly TrailStep[] {
  let sum = 0
  const lines: TrailStep[] = []
  const uncertainties: (number | null)[] = []
  for (const { point, source } of outward) {
    if (source === null || source.value === null) break
    const before = sum
    sum = fixedEnd === 'toe' ? sum + source.value : sum - source.value
    uncertainties.push(source.standardUncertainty)
    lines.push({
      kind: 'cumulative-deflection',
      formula:
        fixedEnd === 'toe' ? 'd = d before + L · (sin θ − sin θ₀)' : 'd = d before − L · (sin θ − sin θ₀)',
      sentence: `From the ${fixedEnd}, past segment ${point}: ${numberText(before)} ${fixedEnd === 'toe' ? '+' : '−'} ${operandText(source.value)} = ${quantityText(sum, 'mm')}.`,
      input: before,
      inputUnit: 'mm',
      output: sum,
      outputUnit: 'mm',
      standardUncertainty: sumUncertainty(uncertainties),
    })
  }
  return lines
}

function greatestLine(lines: readonly TrailStep[]): readonly TrailStep[] {
  const value = greatestDeflection(lines.map(({ output }) => output))
  const from = lines.find(({ output }) => output === value)
  if (value === null || from === undefined) return []
  return [
    {
      ...from,
      kind: 'greatest-deflection',
      formula: 'd of greatest |d|',
      sentence: `Greatest of these in magnitude: ${quantityText(value, 'mm')}.`,
      input: value,
    },
  ]
}
