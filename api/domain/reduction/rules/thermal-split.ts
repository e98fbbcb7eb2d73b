import { numberText, operandText, quantityText } from '../number-text.ts'
import { sqlNumber } from '../sql-number.ts'
import type { TrailStep } from '../trail-step.ts'
import type { DerivedBundle, DerivedOutput, MemberValue } from './derived-bundle.ts'
import { knownMeanSql, meanOfMembers, meanUncertainty } from './mean.ts'
import { bitsOf, type Rule, type TrailSlot } from './rule.ts'
import { bitsSql, type DerivedRelations, outputsSql, slotNumbers } from './slotted-sql.ts'

interface ThermalSplit {
  readonly kind: 'thermal-split'
  /** The first so many slots are gauges of force, the rest thermometers. */
  readonly gauges: number
  readonly factorKnPerKelvin: number
  readonly referenceDegC: number
}

/**
 * Output 0: k · (mean temperature − T₀); output 1: mean force less that. Of what has a value: a dead gauge or
 * thermometer leaves the mean of the others, marked incomplete, as in `mean`. Null where none of a kind is left.
 */
export const thermalSplit: Rule<ThermalSplit> = {
  derive({ outputs }: DerivedBundle, rule, read: readonly MemberValue[]) {
    const { forces, temperatures } = parts(rule, read)
    const share = shareOf(rule, meanOfMembers(temperatures.map(({ value }) => value)))
    const force = meanOfMembers(forces.map(({ value }) => value))
    return outputs.map(({ of }) =>
      of === 0
        ? { value: share, quality: bitsOf(temperatures) }
        : { value: force === null || share === null ? null : force - share, quality: bitsOf(read) },
    )
  },

  shape: ({ slots }, { gauges, factorKnPerKelvin, referenceDegC }) =>
    `thermal-split ${gauges} of ${slots.length}, ${factorKnPerKelvin} from ${referenceDegC}`,

  sql(example: DerivedBundle, rule, relations: DerivedRelations) {
    const slots = slotNumbers(example.slots.length)
    const { forces, temperatures } = parts(rule, slots)
    const share = `(${sqlNumber(rule.factorKnPerKelvin)} * (${knownMeanSql(temperatures)} - ${sqlNumber(rule.referenceDegC)}))`
    return outputsSql(
      slots,
      [
        { output: 0, value: share, bits: bitsSql(temperatures) },
        { output: 1, value: `(${knownMeanSql(forces)} - ${share})`, bits: bitsSql(slots) },
      ],
      relations,
    )
  },

  lines(_bundle, rule, { of, unit }: DerivedOutput, slots: readonly TrailSlot[]) {
    const { forces, temperatures } = parts(rule, slots)
    const warmth = meanLine(temperatures, 'thermometers', 'T mean = (T₁ + … + Tₙ) / n', 'Cel')
    if (warmth === null) return []
    const share = shareLine(rule, warmth, unit)
    if (of === 0) return [warmth, share]
    const force = meanLine(forces, 'gauges', 'F mean = (F₁ + … + Fₙ) / n', unit)
    if (force === null) return []
    return [warmth, share, force, restLine(force, share, unit)]
  },
}

const parts = <T>({ gauges }: ThermalSplit, slots: readonly T[]) => ({
  forces: slots.slice(0, gauges),
  temperatures: slots.slice(gauges),
})

const shareOf = (rule: ThermalSplit, warmthDegC: number | null): number | null =>
  warmthDegC === null ? null : rule.factorKnPerKelvin * (warmthDegC - rule.referenceDegC)

/** A line that always has its output. */
type Line = TrailStep & { readonly output: number }

function meanLine(slots: readonly TrailSlot[], what: string, formula: string, unit: string): Line | null {
  const known = slots.flatMap(({ source }) =>
    source?.value == null ? [] : [{ ...source, value: source.value }],
  )
  const output = meanOfMembers(known.map(({ value }) => value))
  if (output === null) return null
  const terms = known.map(({ value }, at) => (at === 0 ? numberText(value) : operandText(value)))
  const missing = slots.length - known.length
  const rest = missing === 0 ? '' : `, the others stand for the ${missing} without a value`
  return {
    kind: 'mean',
    formula,
    sentence: `Mean of ${known.length} of ${slots.length} ${what}${rest}: (${terms.join(' + ')}) / ${known.length} = ${quantityText(output, unit)}.`,
    input: known.reduce((sum, { value }) => sum + value, 0),
    inputUnit: unit,
    output,
    outputUnit: unit,
    standardUncertainty: meanUncertainty(known.map(({ standardUncertainty }) => standardUncertainty)),
  }
}

function shareLine({ factorKnPerKelvin, referenceDegC }: ThermalSplit, warmth: Line, unit: string): Line {
  const output = factorKnPerKelvin * (warmth.output - referenceDegC)
  return {
    kind: 'thermal-share',
    formula: 'F thermal = k · (T mean − T₀)',
    sentence: `Thermal share, ${quantityText(factorKnPerKelvin, 'kN')} for each kelvin above ${quantityText(referenceDegC, 'Cel')}: ${numberText(factorKnPerKelvin)} × (${numberText(warmth.output)} − ${operandText(referenceDegC)}) = ${quantityText(output, unit)}.`,
    input: warmth.output,
    inputUnit: warmth.outputUnit,
    output,
    outputUnit: unit,
    standardUncertainty:
      warmth.standardUncertainty === null ? null : Math.abs(factorKnPerKelvin) * warmth.standardUncertainty,
  }
}

function restLine(force: Line, share: Line, unit: string): Line {
  const output = force.output - share.output
  const [one, other] = [force.standardUncertainty, share.standardUncertainty]
  return {
    kind: 'force-less-thermal',
    formula: 'F = F mean − k · (T mean − T₀)',
    sentence: `Mean force less the thermal share: ${numberText(force.output)} − ${operandText(share.output)} = ${quantityText(output, unit)}.`,
    input: force.output,
    inputUnit: unit,
    output,
    outputUnit: unit,
    standardUncertainty: one === null || other === null ? null : Math.hypot(one, other),
  }
}
