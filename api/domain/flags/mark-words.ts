import { quantityText } from '../reduction/number-text.ts'
import type { CheckLimit } from '../site/tables.ts'
import { checks } from './checks.ts'
import type { Limits } from './limits.ts'
import { clockToleranceSeconds, limitsInForce } from './limits-in-force.ts'
import { markNote, marksOf, type ReadingCheck } from './reading-checks.ts'

/** A limit that was passed, as people read it: `above 3 kPa`, `outside 95 to 105 kPa`; null: there is none of its kind. */
export function limitWords(
  check: ReadingCheck,
  limits: Limits | undefined,
  fails: boolean,
  unit: string,
): string | null {
  const [below, above] = fails
    ? [limits?.failBelow ?? null, limits?.failAbove ?? null]
    : [limits?.suspectBelow ?? null, limits?.suspectAbove ?? null]
  const own = checks[check].unit ?? unit
  const text = (limit: number) =>
    `${quantityText(limit, own)}${check === 'rate-of-change' ? ' in an hour' : ''}`
  if (below !== null && above !== null) return `outside ${text(below)} to ${text(above)}`
  if (above !== null) return `above ${text(above)}`
  return below === null ? null : `below ${text(below)}`
}

/**
 * What is marked about a reading in a few words, with the limit that was in force: `suspect: spike (above 3 kPa)`. `own`
 * are the limits of its sensor (`limitsOfSensor`); null: the value is made from others, whose readings were checked.
 */
export function markWords(
  bits: number,
  own: readonly CheckLimit[] | null,
  unit: string,
  atEpochMs: number,
): readonly string[] {
  if (bits === 0) return []
  const records = limitsInForce(own ?? [], atEpochMs)
  return marksOf(bits).map((mark) => {
    const words =
      own === null
        ? 'of a reading that it is made from'
        : (limitWords(mark.check, records[mark.check], mark.fails, unit) ?? ownLimit(mark.check))
    return words === null ? markNote(mark) : `${markNote(mark)} (${words})`
  })
}

/** What holds without any record. */
const ownLimit = (check: ReadingCheck): string | null =>
  check === 'range'
    ? "outside the sensor's stated range"
    : check === 'clock'
      ? `received more than ${clockToleranceSeconds} s before its stamp`
      : null
