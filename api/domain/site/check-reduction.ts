import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { derivedBundles } from '../reduction/derived-series.ts'
import { parseStepParameters } from '../reduction/parse-step-parameters.ts'
import { readCalibrations } from '../reduction/read-calibrations.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'
import { siteTables } from './tables.ts'

/**
 * Every calibration can be computed: its parameters are fit, its units join from the raw unit to the sensor's,
 * its companions are named; and every instrument that adds up its members says how.
 */
export function checkReduction(site: SiteReadings): readonly Issue[] {
  return [...checkParameters(site), ...checkChains(site), ...checkDerived(site)]
}

function checkParameters(site: SiteReadings): readonly Issue[] {
  return site.calibrationSteps.sound.flatMap(({ line, row }) => {
    const parsed = parseStepParameters(row.kind, row.parameters ?? '')
    return parsed.ok
      ? []
      : parsed.issues.map((issue) => ({
          ...issue,
          ...cellIssue('calibrationSteps', line, 'parameters', issue.value ?? row.parameters),
        }))
  })
}

/** Judged one calibration at a time, so that a fault can be told with its line. */
function checkChains(site: SiteReadings): readonly Issue[] {
  const sensors = new Map(site.sensors.sound.map((placed) => [placed.row.id, placed]))
  const steps = groupBy(site.calibrationSteps.sound, ({ row }) => row.calibration)
  const unclear = new Set(site.calibrationSteps.unsound.map(({ written }) => written.calibration))
  return site.calibrations.sound.flatMap(({ line, row }) => {
    const own = steps.get(row.id)?.toSorted((a, b) => a.row.step - b.row.step) ?? []
    const sensor = sensors.get(row.sensor)
    const whole = own.length > 0 && own.every(({ row }, index) => row.step === index + 1)
    const parsed = own.every(({ row }) => parseStepParameters(row.kind, row.parameters ?? '').ok)
    if (!sensor || !whole || !parsed || unclear.has(row.id)) return []
    const outcome = readCalibrations({
      calibrations: [row],
      calibrationSteps: own.map(({ row }) => row),
      sensors: [sensor.row],
      sensorBarometers: site.sensorBarometers.sound.map(({ row }) => row),
    })
    if (outcome.ok) return []
    return outcome.issues.map((issue) => {
      const step = Number(/, step (\d+) /.exec(issue.message)?.[1] ?? own.length)
      const places: Readonly<Record<string, number | undefined>> = {
        [siteTables.sensors.file]: sensor.line,
        [siteTables.calibrationSteps.file]: own[step - 1]?.line,
      }
      return { ...issue, line: places[issue.file ?? ''] ?? line }
    })
  })
}

function checkDerived(site: SiteReadings): readonly Issue[] {
  const { instruments, points, sensors, locations, strata, structureLines } = site
  const used = [instruments, points, sensors, locations, strata, structureLines]
  if (used.some(({ unsound }) => unsound.length > 0)) return []
  const outcome = derivedBundles({
    instruments: instruments.sound.map(({ row }) => row),
    points: points.sound.map(({ row }) => row),
    sensors: sensors.sound.map(({ row }) => row),
    locations: locations.sound.map(({ row }) => row),
    strata: strata.sound.map(({ row }) => row),
    structureLines: structureLines.sound.map(({ row }) => row),
  })
  if (outcome.ok) return []
  return outcome.issues.map((issue) => {
    if (issue.file === structureLines.file) {
      const own = structureLines.sound.filter(({ row }) => row.point === issue.value)
      const found = own.find(({ row }) => issue.message.split(/[ ,]/).includes(row.line))
      return found ? { ...issue, line: found.line } : issue
    }
    const table = [instruments, points, sensors].find(({ file }) => file === issue.file)
    // A message names the record it is about before others.
    const lines = new Map(table?.sound.map(({ row, line }) => [row.id, line]))
    const line = issue.message.split(/[ ,]/).flatMap((word) => lines.get(word) ?? [])[0]
    return line === undefined ? issue : { ...issue, line }
  })
}
