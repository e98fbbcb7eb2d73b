import { assert } from '../assert.ts'
import { deriveValues, meanUncertainty, sumUncertainty } from './derive-values.ts'
import type { DerivedBundle } from './derived-series.ts'
import { numberText, operandText, quantityText } from './number-text.ts'
import { qualitySentences } from './quality.ts'
import type { Trail } from './trail.ts'
import { type TrailReading, type TrailSource, trailSources } from './trail-source.ts'
import type { TrailStep } from './trail-step.ts'

/** Trail of a series that an instrument derives, from its members read at that instant; a missing one is left out. */
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
  const derived = deriveValues(bundle, new Map(own.map((source) => [source.series, source])))[index]
  assert(derived !== undefined, `output ${index} of ${bundle.instrument} was derived`)
  const slots = bundle.slots.map(({ point, series }) => ({
    point,
    source:
      series
        .flatMap((id) => own.find((source) => source.series === id) ?? [])
        .findLast(({ value }) => value !== null) ?? null,
  }))
  const lines =
    bundle.rule.kind === 'mean'
      ? meanLines(slots, bundle.unit)
      : sumLines(
          bundle.rule.fixedEnd === 'toe' ? slots.toReversed() : slots,
          bundle.rule.fixedEnd,
          stopAfter(bundle, output.of),
        )
  const extreme =
    output.of === 'whole' && bundle.rule.kind === 'cumulative' ? extremeLine(lines, derived.value) : []
  const missing = slots.filter(({ source }) => source === null)
  return {
    series: outputId,
    atEpochMs,
    value: derived.value,
    unit: bundle.unit,
    standardUncertainty:
      derived.value === null ? null : ([...lines, ...extreme].at(-1)?.standardUncertainty ?? null),
    sources: trails.flatMap(({ sources }) => sources),
    derived: [...lines, ...extreme],
    cautions: [
      ...qualitySentences(derived.quality).map((sentence) => `${outputId}: ${sentence}`),
      ...missing.map(({ point }) => `${point} has no value at that instant.`),
      ...trails.flatMap(({ cautions }) => cautions),
    ],
  }
}

interface Slot {
  readonly point: string
  readonly source: TrailSource | null
}

/** How many segments from the still end an output adds up. */
const stopAfter = ({ rule, slots }: DerivedBundle, of: 'whole' | number): number =>
  of === 'whole' || rule.kind === 'mean' ? slots.length : rule.fixedEnd === 'toe' ? slots.length - of : of + 1

function meanLines(slots: readonly Slot[], unit: string): readonly TrailStep[] {
  const known = slots.flatMap(({ source }) =>
    source?.value == null ? [] : [{ ...source, value: source.value }],
  )
  if (known.length === 0) return []
  const sum = known.reduce((total, { value }) => total + value, 0)
  const mean = sum / known.length
  const terms = known.map(({ value }, index) => (index === 0 ? numberText(value) : operandText(value)))
  const count = `${known.length} of ${slots.length} gauges`
  return [
    {
      kind: 'mean',
      formula: 'F = (F₁ + F₂ + … + Fₙ) / n',
      sentence: `Mean of ${count}: (${terms.join(' + ')}) / ${known.length} = ${quantityText(mean, unit)}.`,
      input: sum,
      inputUnit: unit,
      output: mean,
      outputUnit: unit,
      standardUncertainty: meanUncertainty(known.map(({ standardUncertainty }) => standardUncertainty)),
    },
  ]
}

function sumLines(outward: readonly Slot[], fixedEnd: string, count: number): readonly TrailStep[] {
  let sum = 0
  const lines: TrailStep[] = []
  const uncertainties: (number | null)[] = []
  for (const { point, source } of outward.slice(0, count)) {
    if (source === null || source.value === null) break
    const before = sum
    sum += source.value
    uncertainties.push(source.standardUncertainty)
    lines.push({
      kind: 'cumulative-deflection',
      formula: 'd = d before + L · (sin θ − sin θ₀)',
      sentence: `From the ${fixedEnd}, past segment ${point}: ${numberText(before)} + ${operandText(source.value)} = ${quantityText(sum, 'mm')}.`,
      input: before,
      inputUnit: 'mm',
      output: sum,
      outputUnit: 'mm',
      standardUncertainty: sumUncertainty(uncertainties),
    })
  }
  return lines
}

function extremeLine(lines: readonly TrailStep[], value: number | null): readonly TrailStep[] {
  const from = lines.find(({ output }) => output === value)
  if (value === null || from === undefined) return []
  return [
    {
      ...from,
      kind: 'greatest-deflection',
      formula: 'd of greatest |d|',
      sentence: `Greatest of these in magnitude: ${quantityText(value, 'mm')}.`,
      input: value,
    },
  ]
}
