import type { CorrectionError } from '../correction-errors.ts'
import { quality } from '../quality.ts'
import type { TrailSource } from '../trail-source.ts'
import type { TrailStep } from '../trail-step.ts'
import type { DerivedBundle, DerivedOutput, DerivedRule, MemberValue } from './derived-bundle.ts'
import type { DerivedRelations } from './slotted-sql.ts'

/** A slot with the source of its value at an instant; null where it has none. */
export interface TrailSlot {
  readonly point: string
  readonly source: TrailSource | null
}

/** Everything a rule is: one file a rule. Function and SQL do the same additions in the same order. */
export interface Rule<R extends DerivedRule> {
  /** One value for each output, from one value for each slot. */
  derive(bundle: DerivedBundle, rule: R, read: readonly MemberValue[]): readonly MemberValue[]
  /** Equal for bundles that one query derives. */
  shape(bundle: DerivedBundle, rule: R): string
  /** `derive` for all bundles of a shape: a SELECT of series, "at", value, quality, received_after_s. */
  sql(example: DerivedBundle, rule: R, relations: DerivedRelations): string
  /** The arithmetic of one output, written out; the last line carries its standard uncertainty. */
  lines(
    bundle: DerivedBundle,
    rule: R,
    output: DerivedOutput,
    slots: readonly TrailSlot[],
  ): readonly TrailStep[]
}

/** Quality of what is made of some members: their bits, and incomplete where one has no value. */
export const bitsOf = (used: readonly MemberValue[]): number =>
  used.reduce((bits, member) => bits | member.quality | (member.value === null ? quality.incomplete : 0), 0)

/**
 * Standard uncertainty of Σ weight · member. Members are independent, √Σ(w·u)², but for the errors of corrections that
 * they share: these are part of each u and add with their signs before they are squared (JCGM 100, F.1.2.3). Null where
 * one is unknown.
 */
export function weightedUncertainty(
  members: readonly {
    readonly weight: number
    readonly standardUncertainty: number | null
    readonly corrections?: readonly CorrectionError[]
  }[],
): number | null {
  if (members.some(({ standardUncertainty }) => standardUncertainty === null)) return null
  const shared = new Map<number, number>()
  const own = members.map(({ weight, standardUncertainty, corrections = [] }) => {
    for (const { correction, error } of corrections)
      shared.set(correction, (shared.get(correction) ?? 0) + weight * error)
    const common = corrections.reduce((sum, { error }) => sum + error * error, 0)
    const u = standardUncertainty ?? 0
    return weight * (common === 0 ? u : Math.sqrt(Math.max(0, u * u - common)))
  })
  return Math.hypot(...own, ...shared.values())
}

/** The same of a plain sum. */
export const sumUncertainty = (members: readonly (number | null)[]): number | null =>
  weightedUncertainty(members.map((standardUncertainty) => ({ weight: 1, standardUncertainty })))
