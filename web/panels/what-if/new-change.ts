import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { clockAt } from '#domain/reduction/logger-clock.ts'
import { givenOrDefault } from '#domain/reduction/parameter.ts'
import { coefficientNames } from '#domain/reduction/step-parameters.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import type { SandboxChange, SandboxKind } from '#domain/what-if/sandbox-change.ts'
import type { SandboxLink, SandboxRecipe } from '#domain/what-if/sandbox-recipe.ts'

/** The chain of a sensor that is in force at an instant, or the first after it. */
export const chainAt = (
  recipe: SandboxRecipe,
  series: string,
  atEpochMs: number,
): readonly CalibrationStep[] =>
  linkAt(
    recipe.links.filter(({ steps }) => steps !== null),
    series,
    atEpochMs,
  )?.steps ?? []

/** The link of a series at an instant, or the first after it; undefined: there is none. */
function linkAt(links: readonly SandboxLink[], series: string, atEpochMs: number): SandboxLink | undefined {
  const own = links
    .filter((link) => link.series === series)
    .toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
  return own.findLast(({ fromEpochMs }) => fromEpochMs <= atEpochMs) ?? own[0]
}

/** When the chain of a sensor that is in force at an instant is followed by another, which has a zero of its own; null: never. */
function nextChainEpochMs(recipe: SandboxRecipe, series: string, atEpochMs: number): number | null {
  const steps = JSON.stringify(chainAt(recipe, series, atEpochMs))
  return firstAfter(
    recipe,
    series,
    atEpochMs,
    (link) => link.steps !== null && JSON.stringify(link.steps) !== steps,
  )
}

/** When a series has its first link after an instant of which something holds; null: never. */
function firstAfter(
  { links }: SandboxRecipe,
  series: string,
  atEpochMs: number,
  holds: (link: SandboxLink) => boolean,
): number | null {
  const later = links.filter((link) => link.series === series && link.fromEpochMs > atEpochMs && holds(link))
  return later.length === 0 ? null : Math.min(...later.map((link) => link.fromEpochMs))
}

/** UCUM code of what the logger gives for a series at an instant or next after it; null where no sensor states it. */
export function rawUnitAt(
  { links, channels }: SandboxRecipe,
  series: string,
  atEpochMs: number,
): string | null {
  const own = links.filter((link) => link.series === series)
  const link = own.find(({ untilEpochMs }) => untilEpochMs > atEpochMs) ?? own.at(-1)
  return channels.find(({ channel }) => channel === link?.channel)?.rawUnit ?? null
}

/** Every number of a chain, by the step's number and its name. */
export const numbersOfChain = (steps: readonly CalibrationStep[]) =>
  steps.flatMap(({ kind, parameters }, at) =>
    coefficientNames(kind)
      .filter((name) => name !== 'commonError' && name !== 'correction')
      .map((name) => ({ step: at + 1, kind, name, value: givenOrDefault(kind, parameters, name) })),
  )

/** How the clock of the logger that reads a series at an instant is on record; none: its stamps stand as sent. */
function clockOf({ channels, clocks = [], links }: SandboxRecipe, series: string, atEpochMs: number) {
  const channel = linkAt(links, series, atEpochMs)?.channel
  const logger = channels.find((one) => one.channel === channel)?.logger
  return clocks.find((one) => one.logger === logger)?.settings ?? []
}

/** A change of a kind that changes nothing yet: its numbers are those that hold. */
export function newChange(
  kind: SandboxKind,
  given: {
    readonly recipe: SandboxRecipe
    readonly series: string
    readonly official: ReducedSeries | undefined
    readonly fromEpochMs: number
  },
): SandboxChange {
  const { recipe, series, fromEpochMs, official } = given
  const dated = { series, fromEpochMs, untilEpochMs: null }
  // Numbers of a chain are those of that chain alone: the next has its own zero.
  const ofChain = { ...dated, untilEpochMs: nextChainEpochMs(recipe, series, fromEpochMs) }
  const chain = chainAt(recipe, series, fromEpochMs)
  const numberIn = (of: CalibrationStep['kind'], name: string) => {
    const step = chain.find((one) => one.kind === of)
    return step ? givenOrDefault(of, step.parameters, name) : null
  }
  switch (kind) {
    case 'coefficient': {
      const first = numbersOfChain(chain)[0]
      return {
        ...ofChain,
        kind,
        step: first?.step ?? 1,
        name: first?.name ?? '',
        value: first?.value ?? Number.NaN,
      }
    }
    case 'zero': {
      const first = official?.value.findIndex((value) => !Number.isNaN(value)) ?? -1
      const atEpochMs = official?.atEpochMs[first] ?? fromEpochMs
      const zero = { by: 'reading', atEpochMs } as const
      return {
        ...dated,
        untilEpochMs: nextChainEpochMs(recipe, series, atEpochMs),
        kind,
        zero,
        reads: official?.value[first] ?? 0,
      }
    }
    case 'barometer': {
      const barometer = linkAt(recipe.links, series, fromEpochMs)?.barometerSeries ?? null
      return {
        ...dated,
        untilEpochMs: firstAfter(
          recipe,
          series,
          fromEpochMs,
          (link) => (link.barometerSeries ?? null) !== barometer || link.fromEpochMs === ofChain.untilEpochMs,
        ),
        kind,
        barometer,
        share: numberIn('barometric', 'efficiency') ?? 1,
        referenceKpa: numberIn('barometric', 'reference'),
        offsetKpa: 0,
      }
    }
    case 'thermal':
      return {
        ...ofChain,
        kind,
        factorPerDegC: numberIn('thermal', 'factor') ?? 0,
        referenceDegC: numberIn('thermal', 'reference'),
      }
    case 'wiring':
      return { ...dated, kind, readsAs: '', exchanged: true }
    case 'clock': {
      const { addedSeconds, addedSecondsPerDay } = clockAt(clockOf(recipe, series, fromEpochMs), fromEpochMs)
      return { ...dated, kind, offsetSeconds: addedSeconds, driftSecondsPerDay: addedSecondsPerDay }
    }
    case 'offset':
      return { ...dated, kind, amount: 0, perDay: 0 }
  }
}
