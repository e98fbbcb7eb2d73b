import { assert } from '../../assert.ts'
import { greatestDeflection } from '../cumulative-deflection.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import { quality } from '../quality.ts'
import type { TrailStep } from '../trail-step.ts'
import type { Combination, DerivedBundle, DerivedOutput, MemberValue } from './derived-bundle.ts'
import { bitsOf, type Rule, type TrailSlot, weightedUncertainty } from './rule.ts'
import type { DerivedRelations } from './slotted-sql.ts'

interface Combinations {
  readonly kind: 'combination'
  readonly combinations: readonly Combination[]
  readonly greatestOf?: readonly number[]
}

/**
 * Each output is a constant plus a weighted sum of slots, all of them required: else null and incomplete. Output `whole`
 * is the greatest in magnitude of some of the others, with its sign, and needs all of those.
 */
export const combination: Rule<Combinations> = {
  derive({ outputs }: DerivedBundle, rule, read: readonly MemberValue[]) {
    const made = outputs.map((output): MemberValue => {
      if (output.of === 'whole') return { value: null, quality: 0 }
      const { constant, terms } = combinationOf(rule, output)
      const used = terms.map(({ slot }) => read[slot] ?? { value: null, quality: 0 })
      return {
        value: combined(
          constant,
          terms.map(({ weight }) => weight),
          used.map(({ value }) => value),
        ),
        quality: bitsOf(used),
      }
    })
    return outputs
      .map(({ of }, index) => (of === 'whole' ? greatestOf(rule, outputs, made) : made[index]))
      .map(known)
  },

  shape: (_bundle, rule) => (rule.greatestOf === undefined ? 'combination' : 'combination with greatest'),

  sql: (_example, rule, relations: DerivedRelations) =>
    combinationSql(relations, rule.greatestOf !== undefined),

  lines(bundle, rule, output: DerivedOutput, slots: readonly TrailSlot[]): readonly TrailStep[] {
    if (output.of === 'whole') return greatestLines(bundle, rule, slots)
    const { constant, terms, says, formula } = combinationOf(rule, output)
    const used = terms.map(({ slot, weight }) => ({ weight, source: slots[slot]?.source ?? null }))
    const value = combined(
      constant,
      terms.map(({ weight }) => weight),
      used.map(({ source }) => source?.value ?? null),
    )
    if (value === null) return []
    return [
      {
        kind: 'combination',
        formula,
        sentence: `${says}: ${sumText(constant, used)} = ${quantityText(value, output.unit)}.${
          used.some(({ source }) => source?.corrections)
            ? ' What a correction of the survey got wrong is the same at all its faces: its error adds up with its signs.'
            : ''
        }`,
        input: constant,
        inputUnit: output.unit,
        output: value,
        outputUnit: output.unit,
        standardUncertainty: weightedUncertainty(
          used.map(({ weight, source }) => ({
            weight,
            standardUncertainty: source?.standardUncertainty ?? null,
            corrections: source?.corrections ?? [],
          })),
        ),
      },
    ]
  },
}

const known = (made: MemberValue | undefined): MemberValue =>
  made ?? { value: null, quality: quality.incomplete }

/** A combination that is not derived, for it is measured, is not known here: then there is no greatest. */
function greatestOf(
  rule: Combinations,
  outputs: readonly DerivedOutput[],
  made: readonly MemberValue[],
): MemberValue {
  const some = (rule.greatestOf ?? []).map((number) =>
    known(made[outputs.findIndex(({ of }) => of === number)]),
  )
  return { value: greatestDeflection(some.map(({ value }) => value)), quality: bitsOf(some) }
}

/** The combination that is the greatest, and that it is. */
function greatestLines(
  bundle: DerivedBundle,
  rule: Combinations,
  slots: readonly TrailSlot[],
): readonly TrailStep[] {
  const some = (rule.greatestOf ?? []).flatMap((number) => {
    const output = bundle.outputs.find(({ of }) => of === number)
    return output ? combination.lines(bundle, rule, output, slots) : []
  })
  const value = greatestDeflection(some.map(({ output }) => output))
  const line = some.find(({ output }) => output === value)
  if (line === undefined || value === null || some.length < (rule.greatestOf?.length ?? 0)) return []
  return [
    line,
    {
      ...line,
      kind: 'greatest-deflection',
      formula: 'd of greatest |d|',
      sentence: `Greatest in magnitude of ${some.length} along the string: ${quantityText(value, line.outputUnit)}.`,
      input: value,
    },
  ]
}

/** constant + Σ weight · value, added in that order; null where a value is missing. */
export function combined(
  constant: number,
  weights: readonly number[],
  values: readonly (number | null)[],
): number | null {
  let sum = constant
  for (const [index, weight] of weights.entries()) {
    const value = values[index] ?? null
    if (value === null) return null
    sum += weight * value
  }
  return sum
}

function combinationOf({ combinations }: Combinations, { id, of }: DerivedOutput): Combination {
  const found = of === 'whole' ? undefined : combinations[of]
  assert(found !== undefined, `${id} is one of the combinations of its bundle`)
  return found
}

/** "3 + 0.5 × 12 − 7": a person with a calculator gets the same. */
function sumText(
  constant: number,
  used: readonly { readonly weight: number; readonly source: { readonly value: number | null } | null }[],
): string {
  const terms = used.map(({ weight, source }) => {
    const value = operandText(source?.value ?? Number.NaN)
    const size = Math.abs(weight)
    return { minus: weight < 0, text: size === 1 ? value : `${numberText(size)} × ${value}` }
  })
  const all =
    constant === 0 ? terms : [{ minus: constant < 0, text: numberText(Math.abs(constant)) }, ...terms]
  return all
    .map(({ minus, text }, index) =>
      index === 0 ? (minus ? `−${text}` : text) : `${minus ? '−' : '+'} ${text}`,
    )
    .join(' ')
}

/**
 * One query for all combinations of a site, however long: their terms are joined in and added in their order.
 * A held slot has the last value at or before the instant, while it is young enough.
 */
function combinationSql(
  { values, held, members, outputs, terms }: DerivedRelations,
  withGreatest: boolean,
): string {
  return `
with asked as (
  select m.bundle, v."at" as instant, max(v.received_after_s) as received_after_s
  from ${values} v join ${members} m on m.series = v.series and m.maximum_age_s is null
  group by m.bundle, v."at"
), surveyed as (
  select a.bundle, a.instant, m.slot, m.series, m.maximum_age_s
  from asked a join ${members} m on m.bundle = a.bundle and m.maximum_age_s is not null
), slotted as (
  select m.bundle, v."at" as instant, m.slot, arg_max(v.value, m.generation) as value,
    bit_or(v.quality)::INTEGER as quality, max(v.received_after_s)::DOUBLE as received_after_s
  from ${values} v join ${members} m on m.series = v.series and m.maximum_age_s is null
  group by m.bundle, v."at", m.slot
  union all
  select s.bundle, s.instant, s.slot, h.value, h.quality::INTEGER,
    greatest(0, h.received_after_s - (epoch_us(s.instant) - epoch_us(h."at")) / 1e6)
  from surveyed s asof join (select * from ${held} where value is not null) h
    on h.series = s.series and s.instant >= h."at"
  where epoch_us(s.instant) - epoch_us(h."at") <= s.maximum_age_s * 1e6
), derived as (
  select t.bundle, t.output, a.instant,
    coalesce(max(s.received_after_s), max(a.received_after_s)) as received_after_s,
    count(s.value) = count(*) as complete,
    list(t.weight * s.value order by t.term) as terms,
    bit_or(coalesce(s.quality, 0) | case when s.value is null then ${quality.incomplete} else 0 end) as bits
  from asked a
  join ${terms} t on t.bundle = a.bundle and t.output >= 0
  left join slotted s on s.bundle = a.bundle and s.instant = a.instant and s.slot = t.slot
  group by t.bundle, t.output, a.instant
), valued as ${withGreatest ? 'materialized ' : ''}(
  select d.bundle, d.output, d.instant, o.series,
    case when d.complete then list_reduce(d.terms, lambda total, term: total + term, o.constant) end as value,
    d.bits, d.received_after_s
  from derived d join ${outputs} o on o.bundle = d.bundle and o.output = d.output
)
select series, instant as "at", value, bits::UTINYINT as quality, received_after_s::INTEGER as received_after_s
from valued${withGreatest ? greatestSql({ outputs, terms }) : ''}`
}

const greatestSql = ({ outputs, terms }: Pick<DerivedRelations, 'outputs' | 'terms'>): string => `
union all
select o.series, g.instant, g.value, g.bits::UTINYINT, g.received_after_s::INTEGER
from (
  select a.bundle, a.instant,
    case when count(v.value) < count(*) then null
      when max(v.value) >= -min(v.value) then max(v.value) else min(v.value) end as value,
    bit_or(coalesce(v.bits, 0) | case when v.value is null then ${quality.incomplete} else 0 end) as bits,
    coalesce(max(v.received_after_s), max(a.received_after_s)) as received_after_s
  from asked a
  join ${terms} t on t.bundle = a.bundle and t.output = -1
  left join valued v on v.bundle = a.bundle and v.instant = a.instant and v.output = t.slot
  group by a.bundle, a.instant
) g join ${outputs} o on o.bundle = g.bundle and o.output = -1`
