import { formatInstant, toLocalField } from '../../ui/format-instant.ts'

/**
 * From when calibrations, ranges and wiring of the field guide are. Null: of the site's present day, and given by
 * the server. `kept`: this device had kept the guide.
 */
export function guideAgeSentence(
  asOfEpochMs: number,
  kept: boolean,
  nowEpochMs: number,
  timeZone: string,
): string | null {
  const day = (atEpochMs: number) => toLocalField(atEpochMs, timeZone).slice(0, 10)
  if (!kept && day(asOfEpochMs) === day(nowEpochMs)) return null
  const how = kept ? ' as kept on this device' : ''
  return `Calibrations, ranges and wiring are those of ${formatInstant(asOfEpochMs, timeZone)}${how}: what changed since is not in the values shown here.`
}
