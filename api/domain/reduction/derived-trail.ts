import { assert } from '../assert.ts'
import { damageRemarks } from './damage-remark.ts'
import { deriveValues } from './derive-values.ts'
import { numberText } from './number-text.ts'
import { qualitySentences } from './quality.ts'
import type { DerivedBundle, DerivedSlot } from './rules/derived-bundle.ts'
import { ruleOf } from './rules/rules.ts'
import type { Trail } from './trail.ts'
import { type TrailReading, type TrailSource, trailSources } from './trail-source.ts'
import { traverseRemarks } from './traverse-remark.ts'

/**
 * Trail of a series that an instrument derives, from its members read at that instant and the surveys that are
 * held to it; a missing one is left out.
 */
export function derivedTrail(
  bundle: DerivedBundle,
  outputId: string,
  atEpochMs: number,
  members: readonly TrailReading[],
): Trail {
  const index = bundle.outputs.findIndex(({ id }) => id === outputId)
  const output = bundle.outputs[index]
  assert(output !== undefined, `${outputId} is made by ${bundle.instrument}`)
  const trails = members.map((member) => trailSources(member, 'member'))
  const own = trails.flatMap(({ sources }) => sources.slice(0, 1))
  const all = deriveValues(bundle, new Map(own.map((source) => [source.series, source])))
  const derived = all[index]
  assert(derived !== undefined, `output ${index} of ${bundle.instrument} was derived`)
  const slots = bundle.slots.map((slot) => ({ slot, point: slot.point, source: sourceOf(slot, own) }))
  const lines = ruleOf(bundle.rule).lines(bundle, bundle.rule, output, slots)
  return {
    series: outputId,
    atEpochMs,
    value: derived.value,
    unit: output.unit,
    standardUncertainty: derived.value === null ? null : (lines.at(-1)?.standardUncertainty ?? null),
    sources: trails.flatMap(({ sources }) => sources),
    derived: lines,
    cautions: [
      ...qualitySentences(derived.quality).map((sentence) => `${outputId}: ${sentence}`),
      // Points of one round are always read one after another: that is nothing to be careful of.
      ...slots.flatMap(({ slot, source }) =>
        source && bundle.rule.kind === 'structure-line' ? [] : slotCaution(slot, source, atEpochMs),
      ),
      ...trails.flatMap(({ cautions }) => cautions),
      ...traverseRemarks(bundle, output, all),
      ...damageRemarks(bundle, output, derived.value),
    ],
  }
}

const sourceOf = ({ series }: DerivedSlot, own: readonly TrailSource[]): TrailSource | null =>
  series
    .flatMap((id) => own.find((source) => source.series === id) ?? [])
    .findLast(({ value }) => value !== null) ?? null

function slotCaution(
  { point, maximumAgeMinutes }: DerivedSlot,
  source: TrailSource | null,
  atEpochMs: number,
): readonly string[] {
  if (maximumAgeMinutes === null) return source ? [] : [`${point} has no value at that instant.`]
  const limit = `${numberText(maximumAgeMinutes / 1440)} days`
  if (source === null)
    return [`${point} has no survey in the ${limit} before that instant, the greatest age stated for it.`]
  const days = Number(((atEpochMs - source.atEpochMs) / 86_400_000).toFixed(2))
  return [
    `${source.series}: surveyed ${numberText(days)} days before, the last survey until then; used up to ${limit}.`,
  ]
}
