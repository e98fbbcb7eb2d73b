import { type Evidence, type EvidencePicture, lacks, type ReviewRule, speaks } from '../evidence.ts'
import { changeSeen } from '../interval-words.ts'
import { looksAt } from '../looks.ts'
import { isBeyondChance } from '../movement.ts'
import type { ReviewCase } from '../review-case.ts'
import { amountText, dayText, pictureOf } from '../wording.ts'

const id = 'logger-cells'
const oldMs = 2 * 86_400_000

/** The logger's cells: below what it works with, its readings cannot be relied on. */
export const loggerCells: ReviewRule = {
  id,
  title: "The logger's cells",
  tells: ['value', 'silence', 'reading'],
  reason:
    'A logger at the end of its cells skips readings, resets its clock and excites sensors with less than they need.',
  source: null,
  weigh(reviewed) {
    const { logger, subject, networkKnown } = reviewed
    if (subject.measure === 'battery-voltage') return ofTheCells(reviewed)
    if (!networkKnown)
      return [
        lacks(
          id,
          'logger',
          'The state of its logger is not known here: its cells, clock and deliveries were not looked at.',
        ),
      ]
    const battery = logger?.battery
    if (!logger || !battery) return []
    const picture = pictureOfCells(reviewed, logger.logger, battery.series)
    const left = battery.volts - battery.leastVolts
    // Cells that were read long before the end say nothing of how they stand there, unless they were low already.
    const isOld = reviewed.untilEpochMs - battery.atEpochMs > oldMs
    const read = isOld ? `were last read on ${dayText(reviewed, battery.atEpochMs)}, at` : 'stand at'
    if (left < 0)
      return [
        speaks(
          id,
          'logger',
          12,
          `The cells of ${logger.logger} ${read} ${battery.volts.toFixed(2)} V, below the ${battery.leastVolts.toFixed(2)} V that it works with.`,
          { picture },
        ),
      ]
    if (left < 0.1)
      return [
        speaks(
          id,
          'logger',
          6,
          `The cells of ${logger.logger} ${read} ${battery.volts.toFixed(2)} V, next to the ${battery.leastVolts.toFixed(2)} V that it works with.`,
          { picture },
        ),
      ]
    if (isOld)
      return [
        lacks(
          id,
          'logger',
          `The cells of ${logger.logger} ${read} ${battery.volts.toFixed(2)} V: how they stand at the clock is not known.`,
          picture,
        ),
      ]
    return left > 0.2
      ? [
          speaks(
            id,
            'logger',
            -3,
            `The cells of ${logger.logger} stand at ${battery.volts.toFixed(2)} V, enough to work.`,
            { picture },
          ),
        ]
      : []
  },
}

/** The subject beside the voltage; where no series of it is named, the logger among the others. */
const pictureOfCells = (reviewed: ReviewCase, logger: string, series: string | undefined): EvidencePicture =>
  series === undefined ? { kind: 'network', logger } : pictureOf(reviewed, { series })

/** Where the voltage itself is asked about: cells that fall faster than those beside them run down. */
function ofTheCells(reviewed: ReviewCase): readonly Evidence[] {
  const { unit } = reviewed.subject
  const looks = looksAt(reviewed)
  const { movement } = looks
  if (!isBeyondChance(movement) || movement.size >= 0) return []
  const held = changeSeen('Change', looks.changeShown(reviewed.subject), unit, looks.grid.stepMs)
  const sentence = `The voltage fell by ${amountText(-movement.size, unit)} in this stretch: the cells of its logger run down.${held.words}`
  return [speaks(id, 'logger', 20, sentence, { ...held.figure, picture: pictureOf(reviewed) })]
}
