import type { DerivedBundle, MemberValue } from './rules/derived-bundle.ts'
import { ruleOf } from './rules/rules.ts'

/**
 * The derived values of a bundle at one instant, in the order of its outputs, from the members read at that instant
 * (and the last surveys of those that are held). A slot's value is that of its newest series that has one. Quality
 * bits of the members that go in are carried over. `derived-sql.ts` does the same.
 */
export function deriveValues(
  bundle: DerivedBundle,
  membersAtInstant: ReadonlyMap<string, MemberValue>,
): readonly MemberValue[] {
  const read = bundle.slots.map(({ series }) => slotValue(series, membersAtInstant))
  return ruleOf(bundle.rule).derive(bundle, bundle.rule, read)
}

function slotValue(series: readonly string[], members: ReadonlyMap<string, MemberValue>): MemberValue {
  const read = series.flatMap((id) => members.get(id) ?? [])
  return {
    value: read.findLast(({ value }) => value !== null)?.value ?? null,
    quality: read.reduce((bits, member) => bits | member.quality, 0),
  }
}
