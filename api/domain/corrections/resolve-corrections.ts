import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { type BarometerPeriod, barometerAt, barometersOf } from '../reduction/barometer-in-force.ts'
import { calibrationAt, calibrationPeriods } from '../reduction/calibration-in-force.ts'
import type { SiteModel } from '../site/site.ts'
import { showInstant } from '../site/site-readings.ts'
import type { CalibrationRow, Wiring } from '../site/tables.ts'
import { correctedWiring } from './corrected-wiring.ts'
import type {
  CorrectionDraft,
  CorrectionName,
  ProposedCorrection,
  StepText,
  Terminal,
  ZeroFrom,
} from './correction.ts'
import { resolvedClock, staleClock } from './resolve-clock.ts'
import { differingSteps, isSameChain, stepSentence } from './step-text.ts'

/** Records that corrections are held against. */
export type CorrectedTables = Pick<
  SiteModel,
  | 'sensors'
  | 'calibrations'
  | 'calibrationSteps'
  | 'sensorBarometers'
  | 'zeroReadings'
  | 'wiring'
  | 'loggerClocks'
  | 'verdicts'
  | 'verdictWithdrawals'
>

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
    if (draft.kind === 'wiring') {
      if (isSameTerminal(draft.was, draft.reads))
        return fault('changes-nothing', `${draft.series} reads ${terminalText(draft.was)} already.`)
      if (!model.wiring.some((row) => isSameTerminal(row, draft.reads)))
        return fault(
          'channel-unknown',
          `Nothing was ever wired to ${terminalText(draft.reads)}. Enter it with the installation first.`,
        )
      return [
        {
          ...draft,
          name: 'wiring',
          replaces: terminalText(draft.was),
          before: `It reads ${terminalText(draft.was)}.`,
          after: `It reads ${terminalText(draft.reads)}.`,
        },
      ]
    }
    if (draft.kind === 'barometer') {
      if (draft.was === draft.barometer)
        return fault('changes-nothing', `${draft.series} is corrected by ${draft.barometer} already.`)
      const barometer = model.sensors.find(({ id }) => id === draft.barometer)
      if (barometer?.measure !== 'barometric-pressure')
        return fault('barometer-unknown', `${draft.barometer} is no barometer of this site.`)
      return [
        {
          ...draft,
          name: 'barometer',
          replaces: draft.was ?? 'no barometer',
          before: draft.was === null ? 'No barometer is named for it.' : `It is corrected by ${draft.was}.`,
          after: `It is corrected by ${draft.barometer}.`,
        },
      ]
    }
    if (draft.kind === 'clock') {
      const clock = resolvedClock(rewired, draft)
      return clock.ok ? [clock.value] : fault(clock.issues[0]?.code ?? '', clock.issues[0]?.message ?? '')
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

function staleBarometer(
  model: CorrectedTables,
  { series, fromEpochMs, untilEpochMs, was }: Extract<CorrectionDraft, { kind: 'barometer' }>,
): Pick<Issue, 'code' | 'message'> | null {
  const periods = barometerPeriodsOf(model, series)
  if (periods === null) return { code: 'sensor-unknown', message: `There is no sensor ${series}.` }
  const { barometer, record } = barometerAt(periods, fromEpochMs)
  if (barometer !== was)
    return {
      code: 'barometer-overtaken',
      message: `${series} is on record as corrected by ${barometer ?? 'no barometer'} at ${showInstant(fromEpochMs)}${record ? ` (${record.author}: ${record.reason})` : ''}, not by ${was ?? 'none'}. Try it on what is recorded now.`,
    }
  const begun = periods.find(
    (one) => one.fromEpochMs > fromEpochMs && one.fromEpochMs < (untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  return begun
    ? {
        code: 'barometer-begins-within',
        message: `${series} is corrected by ${begun.barometer} from ${showInstant(begun.fromEpochMs)} on, within the time of this correction. A correction ends where another barometer begins.`,
      }
    : null
}

/** Which barometer corrects a sensor, and when; null: there is no such sensor. */
export function barometerPeriodsOf(
  { sensors, sensorBarometers }: Pick<CorrectedTables, 'sensors' | 'sensorBarometers'>,
  series: string,
): readonly [BarometerPeriod, ...BarometerPeriod[]] | null {
  const sensor = sensors.find(({ id }) => id === series)
  return sensor ? barometersOf(sensorBarometers)(sensor) : null
}

function staleWiring(
  { wiring }: CorrectedTables,
  { series, fromEpochMs, untilEpochMs, was }: Extract<CorrectionDraft, { kind: 'wiring' }>,
): Pick<Issue, 'code' | 'message'> | null {
  const until = untilEpochMs ?? Number.POSITIVE_INFINITY
  const touched = wiring
    .filter((row) => row.sensor === series && row.fromAt < until && fromEpochMs < endOf(row))
    .toSorted((one, other) => one.fromAt - other.fromAt)
  let reached = fromEpochMs
  for (const row of touched) {
    if (row.fromAt > reached || !isSameTerminal(row, was)) break
    reached = endOf(row)
  }
  return reached >= until
    ? null
    : {
        code: 'wiring-overtaken',
        message: `${series} is not on record as read by ${terminalText(was)} in the whole of that time: at ${showInstant(reached)} it is another, or none. Try it on what is recorded now.`,
      }
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

export const isSameTerminal = (one: Terminal, other: Terminal): boolean =>
  one.logger === other.logger && one.channel === other.channel

export const terminalText = ({ logger, channel }: Terminal): string => `channel ${channel} of ${logger}`

export const endOf = ({ untilAt }: Pick<Wiring, 'untilAt'>): number => untilAt ?? Number.POSITIVE_INFINITY

const isOfWiring = (one: CorrectionDraft): one is CorrectionDraft & { readonly kind: 'wiring' } =>
  one.kind === 'wiring'

/** What a correction is of: its series, or the logger whose clock it is. */
export const subjectOf = (one: CorrectionDraft): string => (one.kind === 'clock' ? one.logger : one.series)

/** Whether two corrections are of one series in some of the same time; a clock is of all that its logger reads. */
export const isOverlapping = (one: CorrectionOrDraft, other: CorrectionOrDraft): boolean =>
  namesOf(one).some((name) => namesOf(other).includes(name)) && isAtOnce(one, other)

const isAtOnce = (one: CorrectionDraft, other: CorrectionDraft): boolean =>
  one.fromEpochMs < (other.untilEpochMs ?? Number.POSITIVE_INFINITY) &&
  other.fromEpochMs < (one.untilEpochMs ?? Number.POSITIVE_INFINITY)

/** Whether two of one proposal are of the same in some of the same time: of a series, or of the clock of a logger. */
const isTwice = (one: CorrectionDraft, other: CorrectionDraft): boolean =>
  one.kind === other.kind && subjectOf(one) === subjectOf(other) && isAtOnce(one, other)

type CorrectionOrDraft = CorrectionDraft & Partial<Pick<ProposedCorrection, 'moves'>>

const namesOf = (one: CorrectionOrDraft): readonly string[] =>
  one.kind === 'clock' ? [`clock of ${one.logger}`, one.series, ...(one.moves ?? [])] : [one.series]

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
