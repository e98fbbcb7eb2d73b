import { cumulativeDeflection, greatestDeflection } from './cumulative-deflection.ts'
import type { DerivedBundle } from './derived-series.ts'
import { quality } from './quality.ts'

/** What a member has at an instant. */
export interface MemberValue {
  readonly value: number | null
  /** Bits of `quality`. */
  readonly quality: number
}

/**
 * The derived values of a bundle at one instant, in the order of its outputs, from the members read at that instant.
 * A slot's value is that of its newest series that has one. A mean is taken of the slots that have a value, and
 * marked incomplete when one has none: never averaged as 0. A cumulative deflection needs every segment between it
 * and the still end, and the greatest deflection every segment: else null and incomplete. Quality bits of the
 * members that go in are carried over. `derived-sql.ts` does the same.
 */
export function deriveValues(
  { rule, slots, outputs }: DerivedBundle,
  membersAtInstant: ReadonlyMap<string, MemberValue>,
): readonly MemberValue[] {
  const read = slots.map(({ series }) => slotValue(series, membersAtInstant))
  if (rule.kind === 'mean') {
    const mean = meanOfMembers(read.map(({ value }) => value))
    return outputs.map(() => ({ value: mean, quality: bitsOf(read) }))
  }
  const values = read.map(({ value }) => value)
  const sums = cumulativeDeflection(values, rule.fixedEnd)
  return outputs.map(({ of }) => {
    if (of === 'whole') return { value: greatestDeflection(sums), quality: bitsOf(read) }
    const used = rule.fixedEnd === 'toe' ? read.slice(of) : read.slice(0, of + 1)
    return { value: sums[of] ?? null, quality: bitsOf(used) }
  })
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

/** Standard uncertainty of a sum of independent members; null where one is unknown. */
export const sumUncertainty = (members: readonly (number | null)[]): number | null =>
  members.some((member) => member === null) ? null : Math.hypot(...members.map((member) => member ?? 0))

function slotValue(series: readonly string[], members: ReadonlyMap<string, MemberValue>): MemberValue {
  const read = series.flatMap((id) => members.get(id) ?? [])
  return {
    value: read.findLast(({ value }) => value !== null)?.value ?? null,
    quality: read.reduce((bits, member) => bits | member.quality, 0),
  }
}

const bitsOf = (used: readonly MemberValue[]): number =>
  used.reduce((bits, member) => bits | member.quality | (member.value === null ? quality.incomplete : 0), 0)
