import type { Issue } from '../outcome.ts'
import { suppressionFaults } from '../suppression/suppression-faults.ts'
import { possibleSeriesIds } from './series-ids.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'

/** A suppression is about something that exists, and ends; one that was ended early ended before its time. */
export function checkSuppressions(site: SiteReadings): readonly Issue[] {
  if (site.suppressions.sound.length === 0) return []
  const known = {
    level: new Set(site.triggerLevels.names.keys()),
    series: possibleSeriesIds(site),
    instrument: new Set(site.instruments.names.keys()),
    logger: new Set(site.loggers.names.keys()),
  }
  const untilOf = new Map(site.suppressions.sound.map(({ row }) => [row.id, row.untilAt]))
  return [
    ...site.suppressions.sound.flatMap(({ line, row }) =>
      suppressionFaults(row, known).map((fault) => ({
        ...cellIssue('suppressions', line, fault.column, fault.value ?? null),
        ...fault,
      })),
    ),
    ...site.suppressionEnds.sound.flatMap(({ line, row }): Issue[] => {
      const until = untilOf.get(row.suppression)
      if (until === undefined || row.at < until) return []
      return [
        {
          ...cellIssue('suppressionEnds', line, 'at', showInstant(row.at)),
          code: 'ended-already',
          expected: `earlier than ${showInstant(until)}`,
          message: `${row.suppression} ended by itself at ${showInstant(until)}. Take this row away.`,
        },
      ]
    }),
  ]
}
