import type { Issue } from '../outcome.ts'
import { possibleSeriesIds } from './series-ids.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import { verdictFaults } from './verdict-faults.ts'

/** A verdict is about a series that exists and a stretch of time that has a length. */
export function checkVerdicts(site: SiteReadings): readonly Issue[] {
  const known = possibleSeriesIds(site)
  return site.verdicts.sound.flatMap(({ line, row }) =>
    verdictFaults(row, known, site.sensors.file).map((fault) => ({
      ...cellIssue('verdicts', line, fault.column, fault.value ?? null),
      ...fault,
    })),
  )
}
