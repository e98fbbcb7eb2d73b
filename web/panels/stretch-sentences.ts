import { formatInstant, formatOffset } from '../ui/format-instant.ts'
import type { HistoryStretch } from '../views/time-history/history-props.ts'
import type { StretchTally } from '../views/time-history/stretch-tally.ts'

/** What a stretch covers, for a person who is about to say something of it. Null: nothing was read. */
export function stretchSentences(
  tally: StretchTally | null,
  stretch: HistoryStretch,
  levelNames: readonly string[],
  timeZone: string,
): readonly string[] {
  const instant = (at: number) => `${formatInstant(at, timeZone)} ${formatOffset(at, timeZone)}`
  const when = `${instant(stretch.fromEpochMs)} until before ${instant(stretch.untilEpochMs)}`
  if (tally === null || tally.readings + (tally.withoutValue ?? 0) === 0)
    return [`${when}: no readings are known in it.`]
  const { readings, withoutValue, marked, reached } = tally
  const one = { raw: 'reading', hour: 'hour', day: 'day' }[tally.resolution]
  const some = (count: number, of: string) => `${count} ${of}${count === 1 ? '' : 's'}`
  const counted =
    tally.resolution === 'raw'
      ? `${some(readings, 'reading')}, ${withoutValue === 0 ? 'all with a value' : `${withoutValue} without a value`}`
      : `${some(readings, 'reading')} with a value, counted by whole ${one}s`
  return [
    `${when}: ${counted}.`,
    marked === 0
      ? 'The automatic checks marked none of it.'
      : `The automatic checks marked ${some(marked, one)} of it.`,
    ...(reached
      ? [
          `A trigger level was reached within it: ${levelNames[reached.level - 1] ?? `level ${reached.level}`}, by ${some(reached.times, one)} at or beyond the first level, first at ${instant(reached.firstEpochMs)}. A verdict lowers no level.`,
        ]
      : [
          tally.watched
            ? 'No trigger level was reached within it.'
            : 'No trigger level was in force within it.',
        ]),
  ]
}
