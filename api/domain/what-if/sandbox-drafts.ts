import type { CalibrationStep } from '../reduction/chain.ts'
import { clockAt } from '../reduction/logger-clock.ts'
import { givenOrDefault } from '../reduction/parameter.ts'
import { coefficientNames } from '../reduction/step-parameters.ts'
import { changeSentence } from './change-sentence.ts'
import { loggersOf } from './edit-clock.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxLink, SandboxRecipe } from './sandbox-recipe.ts'
import { isMeant } from './series-pattern.ts'

/** Numbers and names before or after, by what they are: `3.c0`, `channel`, `barometer`. */
export type DraftParameters = Readonly<Record<string, number | string | null>>

/** What would have to be recorded for a sandbox to become official: plain data, which nothing here records. */
export interface SandboxDraft {
  readonly kind: 'calibration' | 'wiring' | 'barometer' | 'drift' | 'clock'
  /** Series; of a clock the logger. */
  readonly subject: string
  readonly fromEpochMs: number
  /** Null: for good. */
  readonly untilEpochMs: number | null
  readonly old: DraftParameters
  readonly new: DraftParameters
  /** The whole chain, where it is a calibration. */
  readonly steps: readonly CalibrationStep[] | null
  readonly reason: string
}

/**
 * A sandbox as drafts: one a series, stretch of time and kind of record in which it differs from the official recipe,
 * whatever number of changes made it so; clocks by their loggers.
 */
export function sandboxDrafts(
  official: SandboxRecipe,
  sandbox: SandboxRecipe,
  changes: readonly SandboxChange[],
): readonly SandboxDraft[] {
  const channelNames = new Map(
    official.channels.map(({ channel, logger, name }) => [channel, `${logger} ${name}`]),
  )
  const channelName = (channel: number) => channelNames.get(channel) ?? String(channel)
  const reasonOf = (link: SandboxLink): string =>
    changes
      .filter((change) => isMeant(change.series, link.series) || isMeant(readsAsOf(change), link.series))
      .map((change) => changeSentence(change))
      .join(' ')
  const ofLinks = sandbox.links.flatMap((link): SandboxDraft[] => {
    const old = officialAt(official, link)
    if (!old) return []
    const untilEpochMs = link.untilEpochMs >= endOfTime ? null : link.untilEpochMs
    const draft = (
      kind: SandboxDraft['kind'],
      before: DraftParameters,
      after: DraftParameters,
      steps: readonly CalibrationStep[] | null = null,
    ): readonly SandboxDraft[] =>
      JSON.stringify(before) === JSON.stringify(after)
        ? []
        : [
            {
              kind,
              subject: link.series,
              fromEpochMs: link.fromEpochMs,
              untilEpochMs,
              old: before,
              new: after,
              steps,
              reason: reasonOf(link),
            },
          ]
    return [
      ...draft('calibration', numbersOf(old.steps), numbersOf(link.steps), link.steps),
      ...draft('wiring', { channel: channelName(old.channel) }, { channel: channelName(link.channel) }),
      ...draft('barometer', barometerOf(old), barometerOf(link)),
      ...draft('drift', { perDay: perDayOf(old) }, { perDay: perDayOf(link) }),
    ]
  })
  const ofClocks = changes.flatMap((change): SandboxDraft[] => {
    if (change.kind !== 'clock') return []
    const recorded = new Map((official.clocks ?? []).map(({ logger, settings }) => [logger, settings]))
    return [...loggersOf(official, change)].map((subject) => ({
      kind: 'clock' as const,
      subject,
      fromEpochMs: change.fromEpochMs,
      untilEpochMs: change.untilEpochMs,
      old: offsetAndDrift(clockAt(recorded.get(subject) ?? [], change.fromEpochMs)),
      new: { offsetSeconds: change.offsetSeconds, driftSecondsPerDay: change.driftSecondsPerDay },
      steps: null,
      reason: changeSentence(change),
    }))
  })
  return [...ofLinks, ...ofClocks]
}

const offsetAndDrift = ({
  addedSeconds,
  addedSecondsPerDay,
}: ReturnType<typeof clockAt>): DraftParameters => ({
  offsetSeconds: addedSeconds,
  driftSecondsPerDay: addedSecondsPerDay,
})

const endOfTime = Date.UTC(9999, 0, 1)

const readsAsOf = (change: SandboxChange): string => (change.kind === 'wiring' ? change.readsAs : '')

/** The official link of the same series when a link of the sandbox begins. */
const officialAt = (
  { links }: SandboxRecipe,
  { series, fromEpochMs }: SandboxLink,
): SandboxLink | undefined =>
  links.find(
    (one) => one.series === series && one.fromEpochMs <= fromEpochMs && fromEpochMs < one.untilEpochMs,
  )

const numbersOf = (steps: readonly CalibrationStep[] | null): DraftParameters =>
  Object.fromEntries(
    (steps ?? []).flatMap(({ kind, parameters }, at): [string, number | string][] =>
      coefficientNames(kind).length === 0
        ? [[`${at + 1}.${kind}`, '']]
        : coefficientNames(kind).map((name) => [`${at + 1}.${name}`, givenOrDefault(kind, parameters, name)]),
    ),
  )

const barometerOf = ({ barometerSeries, barometerOffsetKpa = 0 }: SandboxLink): DraftParameters => ({
  barometer: barometerSeries,
  offsetKpa: barometerOffsetKpa,
})

const perDayOf = ({ growing = [] }: SandboxLink): number =>
  growing.reduce((sum, { perDay }) => sum + perDay, 0)
