import { type Evidence, lacks, type ReviewRule, speaks } from '../evidence.ts'
import type { LoggerRecord, ReviewCase } from '../review-case.ts'
import { pictureOf } from '../wording.ts'

const id = 'delivery'
/** A link that delivers less wants looking at. */
const usualShare = 0.95

/** What arrived and when: a link loses or delays readings and changes none. */
export const delivery: ReviewRule = {
  id,
  title: 'What arrived, and when',
  tells: ['silence'],
  reason:
    'A link that fails loses readings or brings them late, all channels of its logger alike, and changes no value; memory fetched later shows whether the logger went on.',
  source: null,
  weigh(reviewed) {
    const { logger, networkKnown } = reviewed
    if (!networkKnown)
      return [lacks(id, 'radio', 'What arrived when is not known here: the link was not looked at.')]
    if (!logger || logger.due < 8) return []
    const lost = logger.due - logger.inTime
    const share = logger.inTime / logger.due
    const seen = {
      figure: { value: 100 * share, low: null, high: null, unit: '%' },
      picture: pictureOf(reviewed),
    }
    if (share >= usualShare) {
      const sentence = `${logger.inTime} of ${logger.due} readings of ${logger.logger} came in time.`
      return [speaks(id, 'radio', -6, sentence, seen)]
    }
    const sentence = `${lost} of ${logger.due} readings of ${logger.logger} did not come in time${silenceText(logger)}.`
    const between = isBetweenOthers(reviewed, logger)
    return [
      // Losing some and bringing others is a link's way; nothing at all from an instant on is either's.
      speaks(id, 'radio', between ? 14 : 8, sentence, seen),
      speaks(id, 'logger', between ? 2 : 6, sentence, seen),
      ...memory(reviewed, logger),
      ...beside(logger),
    ]
  },
}

/** True where readings came in time between ones that did not. */
function isBetweenOthers({ subject }: ReviewCase, { due, inTime, longestSilence }: LoggerRecord): boolean {
  if (!longestSilence) return true
  const silentMs = longestSilence.untilEpochMs - longestSilence.fromEpochMs
  return silentMs / (subject.intervalMinutes * 60_000) < 0.7 * (due - inTime)
}

function silenceText({ longestSilence }: LoggerRecord): string {
  if (!longestSilence) return ''
  const hours = (longestSilence.untilEpochMs - longestSilence.fromEpochMs) / 3_600_000
  return hours >= 48
    ? `; the longest silence lasted ${(hours / 24).toFixed(1)} days`
    : `; the longest silence lasted ${hours.toFixed(1)} h`
}

function memory(reviewed: ReviewCase, logger: LoggerRecord): readonly Evidence[] {
  if (logger.later === 0) return []
  const sentence = `${logger.later} of them came later: the logger went on reading.`
  const seen = { picture: pictureOf(reviewed) }
  return [speaks(id, 'radio', 6, sentence, seen), speaks(id, 'logger', -8, sentence, seen)]
}

function beside({ logger, silentBeside }: LoggerRecord): readonly Evidence[] {
  const { silent, of, loggers = [] } = silentBeside
  // A silent one beside it is what is spoken of; the page lists the others with it.
  const seen = { picture: { kind: 'network', logger: loggers[0] ?? logger } } as const
  const names = loggers.length > 0 ? ` (${loggers.join(', ')})` : ''
  if (of === 0) return []
  return silent === 0
    ? [
        speaks(
          id,
          'radio',
          1,
          `${of === 1 ? 'The logger beside it did not go' : `None of the ${of} loggers beside it went`} silent: what hinders is on its own path, or in itself.`,
          seen,
        ),
      ]
    : [
        speaks(
          id,
          'radio',
          5,
          `${silent} of ${of} ${of === 1 ? 'logger' : 'loggers'} beside it went silent too${names}.`,
          seen,
        ),
      ]
}
