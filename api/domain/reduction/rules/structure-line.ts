import { assert } from '../../assert.ts'
import { type Distortion, distortionOf } from '../../ground/distortion.ts'
import { angularDistortionWeights, deflectionWeights, tiltWeights } from '../../ground/distortion-weights.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import { sqlNumber } from '../sql-number.ts'
import type { DerivedBundle, DerivedOutput, MemberValue, Term } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot, weightedUncertainty } from './rule.ts'
import {
  bitsSql,
  type DerivedRelations,
  heldColumnsSql,
  outputsSelectSql,
  slotNumbers,
} from './slotted-sql.ts'

interface StructureLine {
  readonly kind: 'structure-line'
  readonly chainagesMetres: readonly number[]
}

/** Outputs by number: the bays from 0, then the tilt; the deflection ratio is `whole`. */
export const tiltOutput = ({ chainagesMetres }: Pick<StructureLine, 'chainagesMetres'>): number =>
  chainagesMetres.length - 1

/**
 * Angular distortion of each bay, rigid tilt and deflection ratio (sagging positive), all mm/m, of a line of settled
 * points. Every point is required: else null and incomplete; the query leaves such instants out, since the points of one
 * round are read one after another.
 */
export const structureLine: Rule<StructureLine> = {
  derive({ outputs }: DerivedBundle, rule, read: readonly MemberValue[]) {
    const made = distortionAt(
      rule,
      read.map(({ value }) => value),
    )
    return outputs.map((output) => ({
      value: made && amountOf(rule, output, made),
      quality: bitsOf(read),
    }))
  },

  shape: (_bundle, { chainagesMetres }) => `structure-line ${chainagesMetres.join(' ')}`,

  sql({ outputs }: DerivedBundle, rule, relations: DerivedRelations) {
    const chainages = rule.chainagesMetres
    const slots = slotNumbers(chainages.length)
    const last = slots.length - 1
    const length = sqlNumber(lengthOf(rule))
    const tilt = `((v${last} - v0) / ${length})`
    const bay = (at: number) => {
      const own = sqlNumber((chainages[at + 1] ?? 0) - (chainages[at] ?? 0))
      return `((v${at + 1} - v${at}) / ${own} - ${tilt})`
    }
    const deflections = slots.map(
      (slot) => `v${slot} - v0 - ${tilt} * ${sqlNumber((chainages[slot] ?? 0) - (chainages[0] ?? 0))}`,
    )
    // Of two equally far from the line the first counts, as in the function.
    const greatest = `list_reduce([${deflections.join(', ')}], lambda most, one: case when abs(one) > abs(most) then one else most end)`
    const made = outputs.map(({ of }) => ({
      output: of === 'whole' ? -1 : of,
      value: of === 'whole' ? `(${greatest} / ${length})` : of === last ? tilt : bay(of),
      bits: bitsSql(slots),
    }))
    return `${heldColumnsSql(slots, relations)}${outputsSelectSql(made, 'held_slots', relations)}`
  },

  lines(_bundle, rule, output: DerivedOutput, slots: readonly TrailSlot[]) {
    const values = slots.map(({ source }) => source?.value ?? null)
    const made = distortionAt(rule, values)
    if (made === null) return []
    const value = amountOf(rule, output, made)
    const terms = structureLineTerms(rule, output, values)
    return [
      {
        kind: 'structure-line',
        ...wordsOf(rule, output, slots, made),
        input: made.greatestDeflectionMm,
        inputUnit: 'mm',
        output: value,
        outputUnit: output.unit,
        standardUncertainty: weightedUncertainty(
          terms.map(({ slot, weight }) => ({
            weight,
            standardUncertainty: slots[slot]?.source?.standardUncertainty ?? null,
          })),
        ),
      },
    ]
  },
}

/**
 * Weights of the settlements in an output; for the deflection ratio those of the point that is farthest off, or without
 * settlements (null) of the point that makes it least certain.
 */
export function structureLineTerms(
  rule: StructureLine,
  { of }: DerivedOutput,
  values: readonly (number | null)[] | null,
): readonly Term[] {
  const { chainagesMetres } = rule
  const weights = () => {
    if (of === tiltOutput(rule)) return tiltWeights(chainagesMetres)
    if (of !== 'whole') return angularDistortionWeights(chainagesMetres, of)
    const farthest = values ? farthestOf(rule, values) : nearestToAnEnd(rule)
    return deflectionWeights(chainagesMetres, farthest).map((weight) => weight / lengthOf(rule))
  }
  return weights().flatMap((weight, slot) => (weight === 0 ? [] : [{ slot, weight }]))
}

function distortionAt(rule: StructureLine, values: readonly (number | null)[]): Distortion | null {
  const points = rule.chainagesMetres.flatMap((chainageMetres, at) => {
    const settlementMm = values[at] ?? null
    return settlementMm === null ? [] : [{ chainageMetres, settlementMm }]
  })
  if (points.length < rule.chainagesMetres.length) return null
  const made = distortionOf(points)
  assert(made.ok, `a planned line has three points or more at growing chainages: ${rule.chainagesMetres}`)
  return made.value
}

function amountOf(rule: StructureLine, { of }: DerivedOutput, made: Distortion): number {
  if (of === 'whole') return made.greatestDeflectionMm / lengthOf(rule)
  return of === tiltOutput(rule) ? made.tiltMmPerM : (made.angularDistortionMmPerM[of] ?? Number.NaN)
}

const lengthOf = ({ chainagesMetres }: StructureLine): number =>
  (chainagesMetres.at(-1) ?? 0) - (chainagesMetres[0] ?? 0)

function farthestOf(rule: StructureLine, values: readonly (number | null)[]): number {
  const made = distortionAt(rule, values)
  const first = values[0] ?? 0
  const away = rule.chainagesMetres.map((chainage, slot) =>
    Math.abs(
      (values[slot] ?? 0) - first - (made?.tiltMmPerM ?? 0) * (chainage - (rule.chainagesMetres[0] ?? 0)),
    ),
  )
  return away.indexOf(Math.max(...away))
}

function nearestToAnEnd({ chainagesMetres }: StructureLine): number {
  const [first = 0, last = 0] = [chainagesMetres[0], chainagesMetres.at(-1)]
  const gaps = chainagesMetres.slice(1, -1).map((chainage) => Math.min(chainage - first, last - chainage))
  return 1 + gaps.indexOf(Math.min(...gaps))
}

function wordsOf(
  rule: StructureLine,
  { of, unit }: DerivedOutput,
  slots: readonly TrailSlot[],
  made: Distortion,
): { readonly formula: string; readonly sentence: string } {
  const length = lengthOf(rule)
  const last = slots.length - 1
  const point = (slot: number) => slots[slot]?.point ?? ''
  const value = (slot: number) => slots[slot]?.source?.value ?? Number.NaN
  const tiltText = `(${numberText(value(last))} − ${operandText(value(0))}) / ${numberText(length)}`
  if (of === last)
    return {
      formula: 'ω = (s last − s first) / L',
      sentence: `Rigid tilt from ${point(0)} to ${point(last)}, ${numberText(length)} m apart: ${tiltText} = ${quantityText(made.tiltMmPerM, unit)}.`,
    }
  if (of === 'whole') {
    const farthest = farthestOf(
      rule,
      slots.map(({ source }) => source?.value ?? null),
    )
    const along = (rule.chainagesMetres[farthest] ?? 0) - (rule.chainagesMetres[0] ?? 0)
    return {
      formula: 'Δ / L, Δ = s − s first − ω · x',
      sentence: `${point(farthest)} is farthest off the straight line from ${point(0)} to ${point(last)}: ${numberText(value(farthest))} − ${operandText(value(0))} − ${operandText(made.tiltMmPerM)} × ${numberText(along)} = ${quantityText(made.greatestDeflectionMm, 'mm')}; over ${numberText(length)} m that is ${quantityText(made.greatestDeflectionMm / length, unit)}.`,
    }
  }
  const bay = (rule.chainagesMetres[of + 1] ?? 0) - (rule.chainagesMetres[of] ?? 0)
  return {
    formula: 'β = (s far − s near) / l − ω',
    sentence: `Slope from ${point(of)} to ${point(of + 1)}, less the tilt of the whole: (${numberText(value(of + 1))} − ${operandText(value(of))}) / ${numberText(bay)} − ${tiltText} = ${quantityText(made.angularDistortionMmPerM[of] ?? Number.NaN, unit)}.`,
  }
}
