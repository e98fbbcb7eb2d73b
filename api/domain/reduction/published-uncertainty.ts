import { assert } from '../assert.ts'
import type { CorrectionError } from './correction-errors.ts'
import type { DerivedBundle, DerivedOutput, Term } from './rules/derived-bundle.ts'
import { liquidColumnTerms } from './rules/liquid-column.ts'
import { weightedUncertainty } from './rules/rule.ts'
import { structureLineTerms } from './rules/structure-line.ts'
import { threeStudsTerms } from './rules/three-studs.ts'
import {
  periodAt,
  sensorUncertainty,
  type UncertaintyOfSeries,
  type UncertaintyPeriod,
} from './series-uncertainty.ts'

/** What every series of a site is published with, those of sensors and those that instruments derive. */
export function seriesUncertainty(
  model: Parameters<typeof sensorUncertainty>[0],
  calibrations: Parameters<typeof sensorUncertainty>[1],
  bundles: readonly DerivedBundle[],
): UncertaintyOfSeries {
  const ofSensor = sensorUncertainty(model, calibrations)
  const derived = new Map(
    bundles.flatMap((bundle) => bundle.outputs.map((output) => [output.id, { bundle, output }] as const)),
  )
  return (series) => {
    const made = derived.get(series)
    return made ? bundleUncertainty(made.bundle, made.output, ofSensor) : ofSensor(series)
  }
}

/**
 * What a derived series is published with: that of its members, independent of one another but for the errors of
 * corrections that they share, by the weights of its rule, near zero where they hang on the values. A resultant and a greatest deflection hang on which they are; for them
 * the widest that they can be.
 * From each instant at which anything changes; none while a member that is needed has no calibration, and none of a rule
 * whose weights are not told here.
 */
function bundleUncertainty(
  bundle: DerivedBundle,
  output: DerivedOutput,
  of: UncertaintyOfSeries,
): readonly UncertaintyPeriod[] {
  if (!weighed.has(bundle.rule.kind)) return []
  const terms = termsOf(bundle, output)
  const slots = terms.map(({ slot, weight }) => ({
    slot,
    weight,
    // The newest first: a replacement stands for what it replaces from its calibration on.
    generations: (bundle.slots[slot]?.series ?? []).toReversed().map(of),
  }))
  const begins = new Set(
    slots.flatMap(({ generations }) => generations.flat().map(({ fromEpochMs }) => fromEpochMs)),
  )
  return [...begins]
    .toSorted((one, other) => one - other)
    .flatMap((fromEpochMs) => {
      const members = slots.flatMap(({ slot, weight, generations }) => {
        const period = generations.flatMap((periods) => periodAt(periods, fromEpochMs) ?? [])[0]
        return period ? [{ slot, weight, period }] : []
      })
      const complete = members.length === slots.length
      if (bundle.rule.kind === 'thermal-split') return splitPeriod(bundle.rule, output, members, fromEpochMs)
      if (members.length === 0 || !(complete || bundle.rule.kind === 'mean')) return []
      return [{ fromEpochMs, ...together(bundle.rule, members) }]
    })
}

/** Means of what there is of either kind: warmth by its factor, and for the rest the forces beside it. */
function splitPeriod(
  { gauges, factorKnPerKelvin }: Extract<DerivedBundle['rule'], { kind: 'thermal-split' }>,
  { of }: DerivedOutput,
  members: readonly (Member & { readonly slot: number })[],
  fromEpochMs: number,
): readonly UncertaintyPeriod[] {
  const forces = members.filter(({ slot }) => slot < gauges)
  const warmth = members.filter(({ slot }) => slot >= gauges)
  if (warmth.length === 0 || (of !== 0 && forces.length === 0)) return []
  const weighted = [
    ...warmth.map(({ period }) => ({ weight: factorKnPerKelvin / warmth.length, period })),
    ...(of === 0 ? [] : forces.map(({ period }) => ({ weight: 1 / forces.length, period }))),
  ]
  return [{ fromEpochMs, ...together({ kind: 'combination', combinations: [] }, weighted) }]
}

interface Member {
  readonly weight: number
  readonly period: UncertaintyPeriod
}

function together(
  rule: DerivedBundle['rule'],
  members: readonly Member[],
): Omit<UncertaintyPeriod, 'fromEpochMs'> {
  const share = (
    of: (period: UncertaintyPeriod) => number | null,
    errors: (period: UncertaintyPeriod) => readonly CorrectionError[] = () => [],
  ): number | null => {
    const parts = members.map(({ weight, period }) => ({
      weight: rule.kind === 'mean' ? 1 / members.length : weight,
      standardUncertainty: of(period),
      corrections: errors(period),
    }))
    if (rule.kind !== 'resultant') return weightedUncertainty(parts)
    const known = parts.flatMap(({ standardUncertainty }) => standardUncertainty ?? [])
    return known.length < parts.length ? null : Math.max(...known)
  }
  const standardUncertainty = share(
    (period) => period.standardUncertainty,
    ({ corrections = [] }) => corrections,
  )
  assert(standardUncertainty !== null, `every member of a ${rule.kind} has an uncertainty`)
  return {
    commonSinceEpochMs: Math.max(...members.map(({ period }) => period.commonSinceEpochMs)),
    standardUncertainty,
    independent: share(({ independent }) => independent),
  }
}

/** Rules whose members' weights are known here; of another nothing is published rather than something wrong. */
const weighed: ReadonlySet<DerivedBundle['rule']['kind']> = new Set([
  'mean',
  'cumulative',
  'combination',
  'resultant',
  'thermal-split',
  'structure-line',
  'three-studs',
  'liquid-column',
])

/** Slots that go into an output, with their weights. */
function termsOf({ rule, slots }: DerivedBundle, output: DerivedOutput): readonly Term[] {
  const { of } = output
  if (rule.kind === 'structure-line') return structureLineTerms(rule, output, null)
  if (rule.kind === 'three-studs') return threeStudsTerms(rule.zero, output)
  if (rule.kind === 'liquid-column') return liquidColumnTerms(rule, slots, output)
  const all = slots.map((_, slot) => ({ slot, weight: 1 }))
  if (rule.kind === 'combination') {
    const some = of === 'whole' ? (rule.greatestOf ?? []) : [of]
    const terms = some.map((number) => rule.combinations[number]?.terms ?? [])
    const size = (one: readonly Term[]) => one.reduce((sum, { weight }) => sum + weight * weight, 0)
    return terms.toSorted((one, other) => size(other) - size(one))[0] ?? []
  }
  if (rule.kind !== 'cumulative' || of === 'whole') return all
  return rule.fixedEnd === 'toe' ? all.slice(of) : all.slice(0, of + 1)
}
