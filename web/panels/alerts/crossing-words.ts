import type { Episode } from '#domain/alerts/episode.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'
import type { AlertNaming } from './alert-naming.ts'
import { levelName, reachedWords, watchedName, watchedValue } from './level-words.ts'

/** A crossing that raised nothing, as a whole sentence; `level`: as it is on record now, undefined: not any more. */
export function crossingSentence(
  { level: id, crossedAtEpochMs, leftAtEpochMs, peakValue }: Episode,
  level: TriggerLevel | undefined,
  naming: AlertNaming,
): string {
  const at = formatShortInstant(crossedAtEpochMs, naming.timeZone)
  const furthest = level ? watchedValue(peakValue, level, naming) : null
  const what = level
    ? `${watchedName(level.series, naming)} reached ${levelName(level.level, naming)}, ${reachedWords(level, naming)}${furthest === null ? '' : `, with at most ${furthest}`}`
    : `Level ${id}, no longer on record, was reached`
  return leftAtEpochMs === null
    ? `${at}: ${what}; it has not stood long enough to be raised yet.`
    : `${at}: ${what}; left after ${formatAge(leftAtEpochMs - crossedAtEpochMs)}, before it had stood long enough to be raised.`
}
