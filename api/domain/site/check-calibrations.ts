import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/**
 * Versions of a sensor are 1, 2, 3 … in the order in which they were entered, and the steps of each are too. A later
 * version may begin when an earlier one does, or before it: that is how a past mistake is put right.
 */
export function checkCalibrations(site: SiteReadings): readonly Issue[] {
  return [...checkVersions(site), ...checkSteps(site)]
}

function checkVersions(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  // Where a row of a sensor could not be read, its other versions cannot be judged.
  const unclear = new Set(site.calibrations.unsound.map(({ written }) => written.sensor))
  for (const [sensor, rows] of groupBy(site.calibrations.sound, ({ row }) => row.sensor)) {
    if (unclear.has(sensor)) continue
    const ordered = rows.toSorted((a, b) => a.row.version - b.row.version)
    ordered.forEach(({ line, row }, index) => {
      if (row.version !== index + 1) {
        issues.push({
          ...cellIssue('calibrations', line, 'version', row.version),
          code: 'version-order',
          expected: String(index + 1),
          message: `Version ${row.version} of ${sensor} stands where version ${index + 1} is due. Number versions 1, 2, 3 … without gaps or repeats.`,
        })
      }
    })
  }
  return issues
}

function checkSteps(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  const unclear = new Set(site.calibrationSteps.unsound.map(({ written }) => written.calibration))
  const steps = groupBy(site.calibrationSteps.sound, ({ row }) => row.calibration)
  for (const [calibration, line] of site.calibrations.names) {
    if (unclear.has(calibration)) continue
    const ordered = steps.get(calibration)?.toSorted((a, b) => a.row.step - b.row.step) ?? []
    if (ordered.length === 0)
      issues.push({
        ...cellIssue('calibrations', line, 'id', calibration),
        code: 'steps-missing',
        expected: `at least one row in ${site.calibrationSteps.file}`,
        message: `${calibration} has no steps, so nothing can be reduced with it. Add its steps to ${site.calibrationSteps.file}.`,
      })
    const wrong = ordered.findIndex(({ row }, index) => row.step !== index + 1)
    const at = ordered[wrong]
    if (at)
      issues.push({
        ...cellIssue('calibrationSteps', at.line, 'step', at.row.step),
        code: 'step-order',
        expected: String(wrong + 1),
        message: `Step ${at.row.step} of ${calibration} stands where step ${wrong + 1} is due. Number steps 1, 2, 3 … without gaps.`,
      })
  }
  return issues
}
