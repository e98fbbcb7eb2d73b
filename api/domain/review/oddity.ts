import { looksAt } from './looks.ts'
import { isBeyondChance } from './movement.ts'
import { oddReading } from './odd-reading.ts'
import type { oddities } from './oddities.ts'
import { ownSilence } from './own-silence.ts'
import type { ReviewCase } from './review-case.ts'
import { changeText, dayText } from './wording.ts'

/** One of the questions that can be asked of readings. */
export type Oddity = (typeof oddities)[number]

/** An oddity that a stretch shows, in words. */
export interface FoundOddity {
  readonly oddity: Oddity
  readonly sentence: string
}

/** Fewer in time than this share of what was due is a silence. */
const silenceShare = 0.95
const clockSecondsPerDay = 10

/** What is odd in a stretch; its values can always be asked about, also where no change is told. */
export function findOddities(reviewed: ReviewCase): readonly FoundOddity[] {
  const { subject, logger, outOfUseSinceEpochMs } = reviewed
  const found: FoundOddity[] = []
  if (logger && logger.due >= 8 && logger.inTime < silenceShare * logger.due)
    found.push({
      oddity: 'silence',
      sentence: `${logger.due - logger.inTime} of ${logger.due} readings did not come in time.`,
    })
  const own = ownSilence(reviewed)
  if (own && found.length === 0)
    found.push({
      oddity: 'silence',
      sentence: `It has given no value since ${dayText(reviewed, own.sinceEpochMs)}.`,
    })
  const clock = logger?.clockSecondsPerDay
  if (clock && (clock.low > clockSecondsPerDay || clock.high < -clockSecondsPerDay))
    found.push({
      oddity: 'time',
      sentence: `Its readings stand at times that are wrong by ${Math.abs(clock.value).toFixed(0)} s more every day.`,
    })
  const { movement, beganAtEpochMs } = looksAt(reviewed)
  const changed = isBeyondChance(movement) && beganAtEpochMs !== null
  const ended =
    outOfUseSinceEpochMs === null
      ? ''
      : ` It is out of use since ${dayText(reviewed, outOfUseSinceEpochMs)}: nothing is known of it from then on.`
  const told = changed
    ? `It changed by ${changeText(movement.size, subject.unit)} from ${dayText(reviewed, beganAtEpochMs)}, ${movement.kind === 'step' ? 'at once' : 'steadily'}.`
    : movement === null
      ? `${countText(subject.values.length)} in this stretch: too few to tell a change from chance, and no sign that nothing changed.`
      : `No change of its ${subject.intervalMinutes > 1440 ? 'readings' : 'daily means'} is told from chance in this stretch, which is no sign that it stood still${courseText(reviewed)}; single readings may still be odd.`
  const value: FoundOddity = { oddity: 'value', sentence: `${told}${ended}` }
  const single = oddReading(reviewed)
  const reading: readonly FoundOddity[] = single
    ? [{ oddity: 'reading', sentence: single.sentence }]
    : reviewed.reading
      ? [{ oddity: 'reading', sentence: 'The reading that was chosen is not known at this instant.' }]
      : []
  return [...reading, ...(changed ? [value, ...found] : [...found, value])]
}

/** How far its daily means, or its readings where they are fewer, went from the first to the last. */
function courseText(reviewed: ReviewCase): string {
  const means = [...looksAt(reviewed).subject].filter(Number.isFinite)
  const [first, last] = [means[0], means.at(-1)]
  return first === undefined || last === undefined || means.length < 2
    ? ''
    : `: from the first to the last it went by ${changeText(last - first, reviewed.subject.unit)}`
}

const countText = (count: number): string =>
  count === 0 ? 'No reading' : count === 1 ? 'One reading' : `${count} readings`
