import type { DerivedBundle, DerivedRule } from './derived-series.ts'
import { quality } from './quality.ts'

/** What the SQL of a bundle depends on; bundles of one shape are derived by one query. */
export interface DerivedShape {
  readonly rule: DerivedRule
  readonly slotCount: number
}

/** Names of the relations that the query reads. */
export interface DerivedRelations {
  /** series INTEGER, at TIMESTAMP, value DOUBLE, quality UTINYINT, received_after_s INTEGER; one row a series and instant. */
  readonly values: string
  /** bundle INTEGER, slot INTEGER from 0 from the top, generation INTEGER (0 the first, 1 its replacement …), series INTEGER */
  readonly members: string
  /** bundle INTEGER, output INTEGER (−1 for the whole, else the slot), series INTEGER */
  readonly outputs: string
}

export const derivedShape = ({ rule, slots }: DerivedBundle): DerivedShape => ({
  rule,
  slotCount: slots.length,
})

/** Equal for bundles that one query derives. */
export const derivedShapeKey = ({ rule, slotCount }: DerivedShape): string =>
  rule.kind === 'mean' ? `mean ${slotCount}` : `cumulative ${rule.fixedEnd} ${slotCount}`

/** `output` of the outputs relation for an output of a bundle. */
export const outputNumber = (of: 'whole' | number): number => (of === 'whole' ? -1 : of)

/**
 * `deriveValues` for all bundles of a shape at every instant at which any member was read, as one SELECT of
 * series, "at", value, quality, received_after_s; the last is that of the member received last.
 * The same additions in the same order, whatever the order of the rows.
 */
export function derivedSql({ rule, slotCount }: DerivedShape, relations: DerivedRelations): string {
  const slots = Array.from({ length: slotCount }, (_, slot) => slot)
  const columns = slots.map(
    (slot) =>
      `arg_max(v.value, m.generation) filter (where m.slot = ${slot}) as v${slot}, ` +
      `coalesce(bit_or(v.quality) filter (where m.slot = ${slot}), 0) as b${slot}`,
  )
  const outputs = rule.kind === 'mean' ? [meanOutput(slots)] : cumulativeOutputs(slots, rule.fixedEnd)
  return `
with slotted as (
  select m.bundle, v."at" as instant, max(v.received_after_s) as received_after_s,
    ${columns.join(',\n    ')}
  from ${relations.values} v join ${relations.members} m on m.series = v.series
  group by m.bundle, v."at"
), marked as (
  select *, ${slots.map((slot) => `b${slot} | case when v${slot} is null then ${quality.incomplete} else 0 end as q${slot}`).join(', ')}
  from slotted
), derived as (
  select bundle, instant, received_after_s,
    unnest([${outputs.map(({ output }) => output).join(', ')}]) as output,
    unnest([${outputs.map(({ value }) => value).join(', ')}]) as value,
    unnest([${outputs.map(({ bits }) => bits).join(', ')}]) as bits
  from marked
)
select o.series, d.instant as "at", d.value, d.bits::UTINYINT as quality, d.received_after_s
from derived d join ${relations.outputs} o on o.bundle = d.bundle and o.output = d.output`
}

interface OutputSql {
  readonly output: number
  readonly value: string
  readonly bits: string
}

function meanOutput(slots: readonly number[]): OutputSql {
  const sum = slots.map((slot) => `coalesce(v${slot}, 0e0)`).join(' + ')
  const count = slots.map((slot) => `(v${slot} is not null)::INTEGER`).join(' + ')
  return { output: -1, value: `((${sum}) / nullif(${count}, 0))`, bits: allBits(slots) }
}

function cumulativeOutputs(slots: readonly number[], fixedEnd: 'toe' | 'head'): readonly OutputSql[] {
  const outward = fixedEnd === 'toe' ? slots.toReversed() : slots
  const places = outward.map((slot, index) => {
    const used = outward.slice(0, index + 1)
    return { output: slot, value: used.map((from) => `v${from}`).join(' + '), bits: allBits(used) }
  })
  const sums = places.map(({ value }) => value).join(', ')
  const farthest = places.at(-1)?.value ?? 'null'
  // greatest and least pass over nulls, so the sum over all segments is asked first.
  const extreme = `case when ${farthest} is null then null when greatest(${sums}) >= -least(${sums}) then greatest(${sums}) else least(${sums}) end`
  return [...places, { output: -1, value: extreme, bits: allBits(slots) }]
}

const allBits = (slots: readonly number[]): string => `(${slots.map((slot) => `q${slot}`).join(' | ')})`
