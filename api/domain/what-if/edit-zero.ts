import { accept, type Outcome } from '../outcome.ts'
import type { CalibrationStep, Companions } from '../reduction/chain.ts'
import { givenOrDefault } from '../reduction/parameter.ts'
import { runChain } from '../reduction/run-chain.ts'
import { steps as stepsByKind } from '../reduction/steps.ts'
import type { StepKind } from '../site/vocabulary.ts'
import { refuse } from './edit-links.ts'
import { type CompanionOf, reduceSensor } from './reduce-sensor.ts'
import { roundAsPublished } from './round-as-published.ts'
import type { SandboxChange, ZeroReading } from './sandbox-change.ts'
import type { RawReadings, SandboxLink } from './sandbox-recipe.ts'

type ZeroChange = Extract<SandboxChange, { kind: 'zero' }>

/** A reading this old does not stand for an instant any more. */
const oldestReadingMs = 31 * 86_400_000

/**
 * A link whose chain gives `reads` at its zero reading; the very link where it does so to the decimals of its series. The last zero step takes it up where nothing but straight lines
 * follows; a chain without one ends with a zero step then.
 */
export function withZero(
  link: SandboxLink,
  change: ZeroChange,
  links: readonly SandboxLink[],
  readings: RawReadings,
  companionOf: CompanionOf,
): Outcome<SandboxLink> {
  const steps = link.steps ?? []
  const found = valueAtZero(link, change.zero, links, readings, companionOf)
  if (!found.ok) return found
  // What it is to read is told to the decimals of its series: where it reads that already, its zero is the old one.
  const published = roundAsPublished(found.value, link.decimals)
  if (published === roundAsPublished(change.reads, link.decimals)) return accept(link)
  // Of one reading the published value is known, and what is typed beside it is the very change of it.
  const excess = (change.zero.by === 'reading' ? published : found.value) - change.reads
  const at = steps.findLastIndex(
    ({ kind, parameters }) => kind === 'zero' && givenOrDefault('zero', parameters, 'correction') === 0,
  )
  const after = steps.slice(at + 1)
  if (at >= 0 && after.every(({ kind }) => straight.has(kind))) {
    const old = steps[at] as CalibrationStep
    const companions: Companions = { temperatureDegC: 0, barometerKpa: 100 }
    const slope = after.reduce(
      (product, { kind, parameters }) => product * stepsByKind[kind].derivative(0, parameters, companions),
      1,
    )
    const value = givenOrDefault('zero', old.parameters, 'value') + excess / slope
    const fresh: CalibrationStep = { kind: 'zero', parameters: { ...old.parameters, value } }
    return accept({ ...link, steps: steps.map((step, index) => (index === at ? fresh : step)) })
  }
  return accept({ ...link, steps: [...steps, { kind: 'zero', parameters: { value: excess } }] })
}

const straight: ReadonlySet<StepKind> = new Set([
  'linear',
  'unit',
  'thermal',
  'barometric',
  'strain-temperature',
  'zero',
])

/** When the readings of a zero were taken; of a single one, how far back it may lie. Until is exclusive. */
export const stretchOfZero = (
  zero: Exclude<ZeroReading, { by: 'raw' }>,
): { readonly fromEpochMs: number; readonly untilEpochMs: number } =>
  zero.by === 'mean'
    ? { fromEpochMs: zero.fromEpochMs, untilEpochMs: zero.untilEpochMs }
    : { fromEpochMs: zero.atEpochMs - oldestReadingMs, untilEpochMs: zero.atEpochMs + 1 }

/** What the chain of a link makes of the zero reading, whatever calibration was in force when that was taken. */
function valueAtZero(
  link: SandboxLink,
  zero: ZeroReading,
  links: readonly SandboxLink[],
  readings: RawReadings,
  companionOf: CompanionOf,
): Outcome<number> {
  if (zero.by === 'raw') {
    const { value } = runChain(zero.raw, link.steps ?? [], referencesOf(link.steps ?? []))
    return value === null
      ? refuse(
          'raw',
          'no-value',
          `A reading of ${zero.raw} has no value by the chain of ${link.series}.`,
          String(zero.raw),
        )
      : accept(value)
  }
  const { fromEpochMs: from, untilEpochMs: until } = stretchOfZero(zero)
  const own = links.flatMap((one) =>
    one.series === link.series && one.fromEpochMs < until && from < one.untilEpochMs
      ? [
          {
            ...link,
            channel: one.channel,
            fromEpochMs: Math.max(from, one.fromEpochMs),
            untilEpochMs: Math.min(until, one.untilEpochMs),
          },
        ]
      : [],
  )
  const made = [...reduceSensor(own, readings, companionOf).value].filter((value) => !Number.isNaN(value))
  const used = zero.by === 'mean' ? made : made.slice(-1)
  if (used.length === 0)
    return refuse(
      zero.by === 'mean' ? 'zeroFrom' : 'zeroAt',
      'no-zero-reading',
      `${link.series} has no reading with a value ${zero.by === 'mean' ? 'in the stretch given' : 'within 31 days before the instant given'} among those that are here. Choose another, or look at a longer time.`,
    )
  return accept(used.reduce((sum, value) => sum + value, 0) / used.length)
}

/** Thermistor and barometer as they stood at the zero reading of a chain. */
function referencesOf(steps: readonly CalibrationStep[]): Companions {
  const referenceOf = (needs: keyof Companions) => {
    const step = steps.find(({ kind }) => stepsByKind[kind].needs === needs)
    return step ? givenOrDefault(step.kind, step.parameters, 'reference') : null
  }
  return { temperatureDegC: referenceOf('temperatureDegC'), barometerKpa: referenceOf('barometerKpa') }
}
