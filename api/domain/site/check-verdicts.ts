import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import { possibleSeriesIds } from './series-ids.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'

/** A verdict is about a series that exists and a stretch of time that has a length. */
export function checkVerdicts(site: SiteReadings): readonly Issue[] {
  const known = possibleSeriesIds(site)
  return site.verdicts.sound.flatMap(({ line, row }): Issue[] => {
    const found: Issue[] = []
    if (!known.has(row.series)) {
      const nearest = nearestWord(row.series, known)
      found.push({
        ...cellIssue('verdicts', line, 'series', row.series),
        code: 'series-unknown',
        expected: `a sensor of ${site.sensors.file}, or a series that an instrument derives, such as ST-01/force`,
        message: `There is no series "${row.series}". ${nearest ? `Did you mean "${nearest}"?` : 'Name it point/measure, as in the sensors table.'}`,
      })
    }
    if (row.untilAt !== null && row.untilAt <= row.fromAt)
      found.push({
        ...cellIssue('verdicts', line, 'untilAt', showInstant(row.untilAt)),
        code: 'ends-before-begin',
        expected: `later than fromAt, ${showInstant(row.fromAt)}`,
        message: `${row.id} would end at ${showInstant(row.untilAt)}, not later than it begins, ${showInstant(row.fromAt)}. Correct one of the two, or leave untilAt empty while it lasts.`,
      })
    return found
  })
}
