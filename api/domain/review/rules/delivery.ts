import { type Evidence, type ReviewRule, speaks } from '../evidence.ts'
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
    const { logger } = reviewed
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
    // Ten decibans for a tenth lost, up to twenty for nearly all.
    const strength = Math.min(20, 8 + 14 * (1 - share))
    return [
      speaks(id, 'radio', strength, sentence, seen),
      ...memory(reviewed, logger),
      ...cells(logger),
      ...beside(logger),
    ]
  },
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
  const sentence = `${logger.later} of them came later: the logger went on, and what it read is whole.`
  const seen = { picture: pictureOf(reviewed) }
  return [speaks(id, 'radio', 6, sentence, seen), speaks(id, 'logger', -8, sentence, seen)]
}

function cells({ battery, logger }: LoggerRecord): readonly Evidence[] {
  if (!battery) return []
  const left = battery.volts - battery.leastVolts
  return left < 0.1
    ? [
        speaks(
          id,
          'logger',
          10,
          `The cells of ${logger} stand at ${battery.volts.toFixed(2)} V, at or near the least that it works with.`,
        ),
      ]
    : []
}

function beside({ silentBeside }: LoggerRecord): readonly Evidence[] {
  const { silent, of } = silentBeside
  if (of === 0) return []
  return silent === 0
    ? [
        speaks(
          id,
          'radio',
          1,
          `None of the ${of} loggers beside it went silent: what hinders is on its own path, or in itself.`,
        ),
      ]
    : [speaks(id, 'radio', 5, `${silent} of the ${of} loggers beside it went silent too.`)]
}
