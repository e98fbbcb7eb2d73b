import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { calibrationAt, calibrationPeriods } from '../reduction/calibration-in-force.ts'
import type { SiteModel } from '../site/site.ts'
import { showInstant } from '../site/site-readings.ts'
import type { CalibrationRow } from '../site/tables.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import { correctedWiring } from './corrected-wiring.ts'
import type { CorrectionDraft, CorrectionName, ProposedCorrection, StepText, ZeroFrom } from './correction.ts'
import { isTwice, subjectOf } from './overlapping-corrections.ts'
import { resolvedBarometer, staleBarometer } from './resolve-barometer.ts'
import { resolvedClock, staleClock } from './resolve-clock.ts'
import { resolvedWiring, staleWiring } from './resolve-wiring.ts'
import { differingSteps, isSameChain, stepSentence } from './step-text.ts'

/**
 * Drafts held against the records as they stand: each says what it stands in the place of. Refused where the records are no
 * longer what the sandbox was tried on, or a draft changes nothing; an issue's `column` is `changes.` and its number.
 */
export function resolveCorrections(
  model: SiteModel,
  drafts: readonly CorrectionDraft[],
): Outcome<readonly ProposedCorrection[]> {
  const issues: Issue[] = []
  // What a clock moves is what its logger reads once leads are as the same proposal has them.
  const rewired = { ...model, wiring: correctedWiring(model.wiring, drafts.filter(isOfWiring), '') }
  const resolved = drafts.flatMap((draft, number): ProposedCorrection[] => {
    const column = `changes.${number}`
    const fault = (code: string, message: string) => {
      issues.push({ code, column, value: draft.series, message })
      return []
    }
    if (!model.sensors.some(({ id }) => id === draft.series))
      return fault('sensor-unknown', `There is no sensor ${draft.series} at this site.`)
    if (draft.untilEpochMs !== null && draft.untilEpochMs <= draft.fromEpochMs)
      return fault('ends-before-begin', `The correction of ${draft.series} ends no later than it begins.`)
    const stale = staleFault(model, draft)
    if (stale) return fault(stale.code, stale.message)
    if (draft.kind !== 'calibration') {
      const held = resolvedOf(draft.kind === 'clock' ? rewired : model, draft)
      return held.ok ? [held.value] : fault(held.issues[0]?.code ?? '', held.issues[0]?.message ?? '')
    }
    const row = calibrationOf(model, draft.series, draft.fromEpochMs) as CalibrationRow
    const differing = differingSteps(draft.was, draft.steps)
    if (differing.length === 0) return fault('changes-nothing', `${row.id} says that already.`)
    const words = wordsOf(row.id, draft.was, draft.steps, differing)
    const isLeft =
      !hasSameZero(draft.was, draft.steps) &&
      model.zeroReadings.some(({ calibration }) => calibration === row.id)
    return [
      {
        ...draft,
        ...words,
        after: draft.zeroFrom
          ? `${words.after} Its zero is taken from ${zeroFromText(draft.zeroFrom)}; recorded with it as zero readings.`
          : isLeft
            ? `${words.after} The zero readings of ${row.id} were not taken for it and are not taken over: what they say of the uncertainty is not counted any more.`
            : words.after,
      },
    ]
  })
  for (const [at, one] of drafts.entries())
    if (drafts.slice(0, at).some((other) => isTwice(other, one)))
      issues.push({
        code: 'correction-repeated',
        column: `changes.${at}`,
        value: one.series,
        message: `${subjectOf(one)} is corrected twice at once in one proposal. Keep one of them.`,
      })
  return issues.length > 0 ? reject(...issues) : accept(resolved)
}

function resolvedOf(
  model: SiteModel,
  draft: Exclude<CorrectionDraft, { kind: 'calibration' }>,
): Outcome<ProposedCorrection> {
  switch (draft.kind) {
    case 'wiring':
      return resolvedWiring(model, draft)
    case 'barometer':
      return resolvedBarometer(model, draft)
    case 'clock':
      return resolvedClock(model, draft)
  }
}

/** Why records are no longer what a draft was tried on; null: they are. */
export function staleFault(
  model: CorrectedTables,
  draft: CorrectionDraft & Partial<Pick<ProposedCorrection, 'replaces' | 'moves'>>,
): Pick<Issue, 'code' | 'message'> | null {
  const { series, fromEpochMs } = draft
  if (draft.kind === 'wiring') return staleWiring(model, draft)
  if (draft.kind === 'barometer') return staleBarometer(model, draft)
  if (draft.kind === 'clock') return staleClock(model, draft)
  const own = datedOf(model, series)
  const inForce = calibrationOf(model, series, fromEpochMs)
  if (!inForce)
    return {
      code: 'no-calibration',
      message: `No calibration of ${series} is in force at ${showInstant(fromEpochMs)}: there is nothing to correct.`,
    }
  if (draft.replaces !== undefined && draft.replaces !== inForce.id)
    return {
      code: 'version-overtaken',
      message: `It was to stand in the place of ${draft.replaces}; since then ${inForce.id} holds at ${showInstant(fromEpochMs)} (${inForce.author}: ${inForce.reason}).`,
    }
  if (!isSameChain(draft.was, stepsOf(model, inForce.id)))
    return {
      code: 'version-overtaken',
      message: `${inForce.id}, which holds at ${showInstant(fromEpochMs)}, is not the chain that was tried in the sandbox. Load the page again and try it on what is recorded now.`,
    }
  const begun = calibrationPeriods(own).find(
    (period) =>
      period.fromEpochMs > fromEpochMs &&
      period.fromEpochMs < (draft.untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  if (begun)
    return {
      code: 'version-begins-within',
      message: `${begun.calibration.row.id} begins at ${showInstant(begun.fromEpochMs)}, within the time of this correction of ${series}. A correction ends where another version begins.`,
    }
  return null
}

/** The calibration of a sensor in force at an instant; null: there is none. */
export const calibrationOf = (
  model: Pick<CorrectedTables, 'calibrations'>,
  series: string,
  atEpochMs: number,
): CalibrationRow | null => calibrationAt(datedOf(model, series), atEpochMs)?.row ?? null

/** Versions of a sensor as `calibrationPeriods` takes them. */
export const datedOf = ({ calibrations }: Pick<CorrectedTables, 'calibrations'>, series: string) =>
  calibrations
    .filter(({ sensor }) => sensor === series)
    .map((row) => ({
      row,
      sensor: row.sensor,
      version: row.version,
      validFromEpochMs: row.validFrom,
    }))

/** The chain of a calibration as its rows have it. */
export const stepsOf = (
  { calibrationSteps }: Pick<CorrectedTables, 'calibrationSteps'>,
  calibration: string,
): readonly StepText[] =>
  calibrationSteps
    .filter((row) => row.calibration === calibration)
    .toSorted((one, other) => one.step - other.step)
    .map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' }))

/** Whether zero readings of one chain are those of the other too: the same steps with the same zeros. */
export const hasSameZero = (one: readonly StepText[], other: readonly StepText[]): boolean =>
  one.length === other.length &&
  one.every(({ kind }, at) => kind === other[at]?.kind) &&
  differingSteps(one, other).every((at) => one[at]?.kind !== 'zero')

const isOfWiring = (one: CorrectionDraft): one is CorrectionDraft & { readonly kind: 'wiring' } =>
  one.kind === 'wiring'

function wordsOf(
  id: string,
  was: readonly StepText[],
  steps: readonly StepText[],
  differing: readonly number[],
): Pick<ProposedCorrection, 'name' | 'replaces' | 'before' | 'after'> {
  const side = (own: readonly StepText[], other: readonly StepText[]) =>
    differing.map((at) => stepSentence(own[at], other[at], at)).join('; ')
  return {
    name: nameOf(differing.flatMap((at) => [was[at]?.kind, steps[at]?.kind])),
    replaces: id,
    before: `${id} has ${side(was, steps)}.`,
    after: `A new version has ${side(steps, was)}; certificate, due date and standard uncertainty stay those of ${id}.`,
  }
}

const zeroFromText = ({ zero }: ZeroFrom): string =>
  zero.by === 'reading'
    ? `the last reading at or before ${showInstant(zero.atEpochMs)}`
    : `the readings from ${showInstant(zero.fromEpochMs)} until ${showInstant(zero.untilEpochMs)}`

function nameOf(kinds: readonly (StepText['kind'] | undefined)[]): CorrectionName {
  const all = new Set(kinds.filter((kind) => kind !== undefined))
  if (all.size !== 1) return 'calibration'
  if (all.has('zero')) return 'zero'
  if (all.has('barometric')) return 'air-share'
  return all.has('thermal') ? 'thermal-term' : 'calibration'
}
