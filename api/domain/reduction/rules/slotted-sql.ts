import { quality } from '../quality.ts'

/** Names of the relations that the queries of rules read. */
export interface DerivedRelations {
  /** series INTEGER, at TIMESTAMP, value DOUBLE, quality UTINYINT, received_after_s INTEGER; one row a series and instant. */
  readonly values: string
  /** The same of series that are held (`maximum_age_s`), also before the window; rows without a value are passed over. */
  readonly held: string
  /**
   * bundle INTEGER, slot INTEGER from 0 from the top, generation INTEGER (0 the first, 1 its replacement …),
   * series INTEGER, maximum_age_s DOUBLE (null: read at the instant itself)
   */
  readonly members: string
  /** bundle INTEGER, output INTEGER (`outputNumber`), constant DOUBLE (of a combination, else null), series INTEGER */
  readonly outputs: string
  /**
   * bundle INTEGER, output INTEGER, term INTEGER from 0 in the order of addition, slot INTEGER, weight DOUBLE. Of output −1,
   * the greatest of some combinations, `slot` is the number of a combination.
   */
  readonly terms: string
}

/** `output` of the outputs relation for an output of a bundle. */
export const outputNumber = (of: 'whole' | number): number => (of === 'whole' ? -1 : of)

/** Numbers of the slots of a bundle. */
export const slotNumbers = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, slot) => slot)

/** One value a row of `bundle, instant, received_after_s, v0, q0, v1, q1 …`: the slots of bundles of equal length. */
export function slotColumnsSql(slots: readonly number[], relations: DerivedRelations): string {
  const columns = slots.map(
    (slot) =>
      `arg_max(v.value, m.generation) filter (where m.slot = ${slot}) as v${slot}, ` +
      `coalesce(bit_or(v.quality) filter (where m.slot = ${slot}), 0) as b${slot}`,
  )
  return `
with slotted as (
  select m.bundle, v."at" as instant, max(v.received_after_s) as received_after_s,
    ${columns.join(',\n    ')}
  from ${relations.values} v join ${relations.members} m on m.series = v.series and m.maximum_age_s is null
  group by m.bundle, v."at"
), marked as (
  select *, ${slots.map((slot) => `b${slot} | case when v${slot} is null then ${quality.incomplete} else 0 end as q${slot}`).join(', ')}
  from slotted
)`
}

/** What an output is in SQL, over the columns of `slotColumnsSql`. */
export interface OutputSql {
  readonly output: number
  readonly value: string
  readonly bits: string
}

/** A whole query from outputs over slot columns. */
export const outputsSql = (
  slots: readonly number[],
  outputs: readonly OutputSql[],
  relations: DerivedRelations,
): string => `${slotColumnsSql(slots, relations)}${outputsSelectSql(outputs, 'marked', relations)}`

/** What follows a WITH of slot columns named `from`: a row a series and instant. */
export const outputsSelectSql = (
  outputs: readonly OutputSql[],
  from: string,
  relations: DerivedRelations,
): string => `, derived as (
  select bundle, instant, received_after_s,
    unnest([${outputs.map(({ output }) => output).join(', ')}]) as output,
    unnest([${outputs.map(({ value }) => value).join(', ')}]) as value,
    unnest([${outputs.map(({ bits }) => bits).join(', ')}]) as bits
  from ${from}
)
select o.series, d.instant as "at", d.value, d.bits::UTINYINT as quality, d.received_after_s
from derived d join ${relations.outputs} o on o.bundle = d.bundle and o.output = d.output`

/**
 * The same columns, named `held_slots`, of bundles whose slots are all held: the last value of each at or before every
 * instant at which any was read, and only where each has one that is young enough.
 */
export function heldColumnsSql(slots: readonly number[], relations: DerivedRelations): string {
  const columns = slots.map(
    (slot) =>
      `max(h.value) filter (where s.slot = ${slot}) as v${slot}, ` +
      `coalesce(bit_or(h.quality::INTEGER) filter (where s.slot = ${slot}), 0) as q${slot}`,
  )
  return `
with asked as (
  select distinct m.bundle, v."at" as instant
  from ${relations.values} v join ${relations.members} m on m.series = v.series where v.value is not null
), surveyed as (
  select a.bundle, a.instant, m.slot, m.series, m.maximum_age_s
  from asked a join ${relations.members} m on m.bundle = a.bundle
), held_slots as (
  select s.bundle, s.instant,
    max(greatest(0, h.received_after_s - (epoch_us(s.instant) - epoch_us(h."at")) / 1e6))::INTEGER as received_after_s,
    ${columns.join(',\n    ')}
  from surveyed s asof join (select * from ${relations.held} where value is not null) h
    on h.series = s.series and s.instant >= h."at"
  where epoch_us(s.instant) - epoch_us(h."at") <= s.maximum_age_s * 1e6
  group by s.bundle, s.instant
  having count(*) = ${slots.length}
)`
}

/**
 * The columns `held`, as `held_value` and `held_quality`, added to rows named `from` as rows named `surveyed`: the last
 * value of the one held slot of each bundle, while it is young enough.
 */
export const withHeldSql = (from: string, relations: DerivedRelations): string => `, beside as (
  select k.*, m.series as held_series, m.maximum_age_s
  from ${from} k join ${relations.members} m on m.bundle = k.bundle and m.maximum_age_s is not null
), found as (
  select b.*, h.value as found_value, h.quality as found_quality, h.received_after_s as found_received,
    (epoch_us(b.instant) - epoch_us(h."at")) / 1e6 as found_age_s
  from beside b asof left join (select * from ${relations.held} where value is not null) h
    on h.series = b.held_series and b.instant >= h."at"
), surveyed as (
  select * exclude (received_after_s),
    case when found_age_s <= maximum_age_s then found_value end as held_value,
    case when found_age_s <= maximum_age_s then found_quality::INTEGER else ${quality.incomplete} end as held_quality,
    greatest(received_after_s, case when found_age_s <= maximum_age_s then found_received - found_age_s end)::INTEGER
      as received_after_s
  from found
)`

/** Quality bits of some slots together. */
export const bitsSql = (slots: readonly number[]): string =>
  `(${slots.map((slot) => `q${slot}`).join(' | ')})`
