import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/**
 * A dated barometer measures air pressure and corrects no barometer; what stands for later instants until its next survey
 * hangs on none.
 */
export function checkSensorBarometers(site: SiteReadings): readonly Issue[] {
  const sensors = new Map(site.sensors.sound.map(({ row }) => [row.id, row]))
  const standing = standingSettlements(site)
  return site.sensorBarometers.sound.flatMap(({ line, row }): Issue[] => {
    const issues: Issue[] = []
    const measure = sensors.get(row.barometer)?.measure
    if (measure !== undefined && measure !== 'barometric-pressure')
      issues.push({
        ...cellIssue('sensorBarometers', line, 'barometer', row.barometer),
        code: 'companion-measure',
        expected: 'a sensor that measures barometric-pressure',
        message: `"${row.barometer}" measures ${measure}, not barometric-pressure. Name a sensor that measures barometric-pressure.`,
      })
    const sensor = sensors.get(row.sensor)
    if (sensor?.measure === 'barometric-pressure')
      issues.push({
        ...cellIssue('sensorBarometers', line, 'sensor', row.sensor),
        code: 'barometer-of-barometer',
        expected: 'a sensor that feels the air and does not measure it',
        message: `"${row.sensor}" is a barometer itself: nothing is taken off it for the air. Take the row out.`,
      })
    if (standing.has(row.sensor))
      issues.push({
        ...cellIssue('sensorBarometers', line, 'sensor', row.sensor),
        code: 'survey-with-companions',
        expected: 'a sensor whose surveys do not stand for later instants',
        message: `"${row.sensor}" stands for later instants until its next survey and may not hang on companions. Take the row out.`,
      })
    return issues
  })
}

/** Sensors whose surveys may stand for later instants: of surveyed ends, and of structure lines. */
function standingSettlements(site: SiteReadings): ReadonlySet<string> {
  const points = new Set([
    ...site.instruments.sound.flatMap(({ row }) => row.surveyedPoint ?? []),
    ...site.structureLines.sound.map(({ row }) => row.point),
  ])
  const byPoint = groupBy(site.sensors.sound, ({ row }) => row.point)
  return new Set([...points].flatMap((point) => (byPoint.get(point) ?? []).map(({ row }) => row.id)))
}
