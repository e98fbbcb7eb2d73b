import type { CalibrationList } from '#contract/calibration-draft.ts'
import { clockWords } from '#domain/corrections/clock-words.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** How the clocks of loggers that read a sensor are on record, by whom and why; nothing where none is. */
export const clockSentences = (
  { clocks = [] }: Pick<CalibrationList, 'clocks'>,
  timeZone: string,
): readonly string[] =>
  clocks.map(
    ({ logger, validFrom, author, reason, ...clock }) =>
      `Clock of ${logger}: from the stamp ${formatShortInstant(validFrom, timeZone)} on ${clockWords(clock)}. ${author}: ${reason}`,
  )
