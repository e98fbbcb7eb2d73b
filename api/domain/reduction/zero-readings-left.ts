import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow } from '../site/tables.ts'

/**
 * A sentence about the zero readings that the next version of a calibration leaves behind; null: it leaves none. They are
 * those of the version that is in force where the next one begins, or else of the latest. Zero readings stay with the version
 * that they were taken for, so that the new one has none and no uncertainty of its zero is counted by them.
 */
export function zeroReadingsLeft(
  { calibrations, zeroReadings }: Pick<SiteModel, 'calibrations' | 'zeroReadings'>,
  next: Pick<CalibrationRow, 'id' | 'sensor' | 'version' | 'validFrom'>,
): string | null {
  const before = calibrations
    .filter(({ sensor, version }) => sensor === next.sensor && version < next.version)
    .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
  const replaced = before.findLast(({ validFrom }) => validFrom <= next.validFrom) ?? before.at(-1)
  if (!replaced) return null
  const left = zeroReadings.filter(({ calibration }) => calibration === replaced.id).length
  if (left === 0) return null
  return `${left} zero reading${left === 1 ? '' : 's'} of ${replaced.id} ${left === 1 ? 'stays' : 'stay'} with that version and ${left === 1 ? 'is' : 'are'} not taken over: what they say of the zero and its uncertainty is not counted for ${next.id}. A correction from What if takes them over where the zero stays; otherwise take zero readings anew.`
}
