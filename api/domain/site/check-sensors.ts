import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import { isTimeZone } from './time-zone.ts'

/** Sensors are named point/measure, their companions measure what they must, loggers can be told apart. */
export function checkSensors(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  const measureOf = new Map(site.sensors.sound.map(({ row }) => [row.id, row.measure]))
  for (const { line, row } of site.sensors.sound) {
    const name = `${row.point}/${row.measure}`
    if (row.id !== name)
      issues.push({
        ...cellIssue('sensors', line, 'id', row.id),
        code: 'sensor-name',
        expected: name,
        message: `A sensor is named after its point and measure: write "${name}", or correct point or measure.`,
      })
    const companions = [
      ['temperatureSensor', row.temperatureSensor, 'temperature'],
      ['barometerSensor', row.barometerSensor, 'barometric-pressure'],
    ] as const
    for (const [column, companion, measure] of companions) {
      const found = companion === null ? undefined : measureOf.get(companion)
      if (found === undefined || found === measure) continue
      issues.push({
        ...cellIssue('sensors', line, column, companion),
        code: 'companion-measure',
        expected: `a sensor that measures ${measure}`,
        message: `"${companion}" measures ${found}, not ${measure}. Name a sensor that measures ${measure}.`,
      })
    }
  }
  for (const { line, row } of site.loggers.sound)
    if (!isTimeZone(row.clockZone))
      issues.push({
        ...cellIssue('loggers', line, 'clockZone', row.clockZone),
        code: 'time-zone-unknown',
        expected: 'UTC or an IANA zone name such as Atlantic/Azores',
        message: `"${row.clockZone}" is not a time zone. Write UTC or an IANA zone name.`,
      })
  for (const [serial, loggers] of groupBy(site.loggers.sound, ({ row }) => row.serial))
    for (const { line, row } of loggers.slice(1))
      issues.push({
        ...cellIssue('loggers', line, 'serial', serial),
        code: 'serial-repeated',
        expected: 'a serial number of its own',
        message: `${row.id} has the serial number of the logger in line ${loggers[0]?.line}; their files could not be told apart.`,
      })
  return issues
}
