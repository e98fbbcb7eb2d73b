import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { instantsOfStamps, type Stretch } from '../reduction/clock-reach.ts'
import { clockAt, clockRecordAt, clocksOf } from '../reduction/logger-clock.ts'
import type { SiteModel } from '../site/site.ts'
import { showInstant } from '../site/site-readings.ts'
import { standingVerdicts } from '../site/standing-verdicts.ts'
import { settingsWith } from '../what-if/edit-clock.ts'
import { clockWords } from './clock-words.ts'
import type { CorrectedTables } from './corrected-tables.ts'
import type { ClockText, CorrectionDraft, ProposedCorrection } from './correction.ts'
import { movedSeries } from './moved-series.ts'

type ClockDraft = Extract<CorrectionDraft, { kind: 'clock' }>
type Fault = Pick<Issue, 'code' | 'message'>

const endOfTime = Date.UTC(9999, 0, 1)

/** A clock held against the records, with whatever stands at another instant by it. */
export function resolvedClock(model: SiteModel, draft: ClockDraft): Outcome<ProposedCorrection> {
  const { logger, was, clock, fromEpochMs } = draft
  if (isSameClock(was, clock))
    return reject({ code: 'changes-nothing', message: `The clock of ${logger} is on record like that.` })
  if (clock.addedSeconds === 0 && clock.addedSecondsPerDay === 0 && isSameClock(was, asSent))
    return reject({ code: 'changes-nothing', message: `The stamps of ${logger} stand as sent already.` })
  const { moves, parted } = movedSeries(model, logger, movedStretch(model, draft))
  if (!moves.includes(draft.series))
    return reject({
      code: 'not-its-logger',
      message: `${draft.series} is not read by ${logger} in that time. Choose a series that it reads.`,
    })
  const proposed = { ...draft, moves }
  const fault = verdictWithin(model, proposed)
  if (fault) return reject(fault)
  return accept({
    ...proposed,
    name: 'clock',
    replaces: logger,
    before: `Of ${logger}, ${clockSentence(was, fromEpochMs)}`,
    after: `Of ${logger}, ${clockSentence(clock, fromEpochMs)} Everything that ${logger} reads in that time stands at the instants put right; the stamps that it sent are kept beside every reading.${parted.length === 0 ? '' : ` ${parted.join(', ')}: made from readings of one instant, some of which other loggers take; where these no longer meet, it has no value, or one made from fewer.`}`,
  })
}

/** Why records are no longer what a clock was tried on, or what stands in its way; null: nothing. */
export function staleClock(
  model: CorrectedTables,
  draft: ClockDraft & Pick<Partial<ProposedCorrection>, 'moves'>,
): Fault | null {
  const { logger, fromEpochMs, untilEpochMs, was } = draft
  const settings = clocksOf(model.loggerClocks).get(logger) ?? []
  if (!isSameClock(clockAt(settings, fromEpochMs), was)) {
    const record = clockRecordAt(model.loggerClocks, logger, fromEpochMs)
    return {
      code: 'clock-overtaken',
      message: `Of ${logger}, ${clockSentence(clockAt(settings, fromEpochMs), fromEpochMs)} That is on record${record ? ` (${record.author}: ${record.reason})` : ''}, and not what it was tried on. Try it on what is recorded now.`,
    }
  }
  const begun = settings.find(
    (one) => one.fromEpochMs > fromEpochMs && one.fromEpochMs < (untilEpochMs ?? Number.POSITIVE_INFINITY),
  )
  if (begun)
    return {
      code: 'clock-begins-within',
      message: `A record of the clock of ${logger} begins at the stamp ${showInstant(begun.fromEpochMs)}, within the time of this correction. A correction ends where another record begins.`,
    }
  return verdictWithin(model, draft)
}

/** A verdict on readings that would stand elsewhere: it would be left on others. */
function verdictWithin(
  model: CorrectedTables,
  draft: ClockDraft & Pick<Partial<ProposedCorrection>, 'moves'>,
): Fault | null {
  const { fromEpochMs, untilEpochMs } = movedStretch(model, draft)
  const moved = new Set(draft.moves ?? [])
  const holding = new Set(standingVerdicts(model.verdicts, model.verdictWithdrawals).map(({ id }) => id))
  const left = model.verdicts.filter(
    ({ id, series, fromAt, untilAt }) =>
      holding.has(id) &&
      moved.has(series) &&
      fromAt < untilEpochMs &&
      fromEpochMs < (untilAt ?? Number.POSITIVE_INFINITY),
  )
  const [first] = left
  return first === undefined
    ? null
    : {
        code: 'verdict-on-moved-readings',
        message: `${left.map(({ id, series }) => `${id} of ${series}`).join(', ')}: found on readings that would stand at another instant, where ${left.length === 1 ? 'the verdict' : 'a verdict'} would lie on others. Take ${left.length === 1 ? 'it' : 'them'} back, and find anew once the clock is put right.`,
      }
}

/** Instants at which readings of the time of a clock stand, as recorded and as corrected. */
export function movedStretch(
  { loggerClocks }: Pick<CorrectedTables, 'loggerClocks'>,
  draft: ClockDraft,
): Stretch {
  const settings = clocksOf(loggerClocks).get(draft.logger) ?? []
  const { addedSeconds: offsetSeconds, addedSecondsPerDay: driftSecondsPerDay } = draft.clock
  const corrected = settingsWith(settings, { ...draft, offsetSeconds, driftSecondsPerDay })
  return instantsOfStamps([settings, corrected], {
    fromEpochMs: draft.fromEpochMs,
    untilEpochMs: draft.untilEpochMs ?? endOfTime,
  })
}

const asSent: ClockText = { addedSeconds: 0, addedSecondsPerDay: 0 }

const isSameClock = (one: ClockText, other: ClockText): boolean =>
  one.addedSeconds === other.addedSeconds && one.addedSecondsPerDay === other.addedSecondsPerDay

const clockSentence = (clock: ClockText, fromEpochMs: number): string =>
  `from the stamp ${showInstant(fromEpochMs)} on ${clockWords(clock)}.`
