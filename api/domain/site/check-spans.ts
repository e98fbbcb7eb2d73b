import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'

/** What begins must end later, what is taken out must have been put in, a low must lie under its high. */
export function checkSpans(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  const early = (
    place: ReturnType<typeof cellIssue>,
    column: string,
    from: number | null,
    until: number | null,
    mayMeet = false,
  ) => {
    if (from === null || until === null || until > from || (mayMeet && until === from)) return
    issues.push({
      ...place,
      code: 'ends-before-begin',
      expected: `later than ${column}`,
      message: `${showInstant(until)} is not later than ${column}, ${showInstant(from)}. Correct one of the two.`,
    })
  }
  for (const { line, row } of site.stages.sound)
    early(cellIssue('stages', line, 'endsAt', showInstant(row.endsAt)), 'startsAt', row.startsAt, row.endsAt)
  for (const { line, row } of site.wiring.sound)
    early(cellIssue('wiring', line, 'untilAt', showInstant(row.untilAt)), 'fromAt', row.fromAt, row.untilAt)
  for (const { line, row } of site.triggerLevels.sound)
    early(
      cellIssue('triggerLevels', line, 'validUntil', showInstant(row.validUntil)),
      'validFrom',
      row.validFrom,
      row.validUntil,
    )
  for (const { line, row } of site.calibrations.sound)
    early(
      cellIssue('calibrations', line, 'dueAt', showInstant(row.dueAt)),
      'calibratedAt',
      row.calibratedAt,
      row.dueAt,
    )
  for (const { line, row } of site.diary.sound)
    early(cellIssue('diary', line, 'untilAt', showInstant(row.untilAt)), 'at', row.at, row.untilAt, true)

  const retired = (place: ReturnType<typeof cellIssue>, installedAt: number, retiredAt: number | null) => {
    if (retiredAt === null || retiredAt > installedAt) return
    issues.push({
      ...place,
      code: 'retired-before-installed',
      expected: `later than ${showInstant(installedAt)}`,
      message: `Retired ${showInstant(retiredAt)}, but installed ${showInstant(installedAt)}. Correct one of the two.`,
    })
  }
  const installed = new Map(site.instruments.sound.map(({ row }) => [row.id, row.installedAt]))
  for (const { line, row } of site.instruments.sound)
    retired(
      cellIssue('instruments', line, 'retiredAt', showInstant(row.retiredAt)),
      row.installedAt,
      row.retiredAt,
    )
  for (const { line, row } of site.points.sound) {
    const installedAt = installed.get(row.instrument)
    if (installedAt !== undefined)
      retired(cellIssue('points', line, 'retiredAt', showInstant(row.retiredAt)), installedAt, row.retiredAt)
  }

  for (const { line, row } of site.sensors.sound) {
    if (row.rangeLow !== null && row.rangeHigh !== null && row.rangeHigh <= row.rangeLow)
      issues.push({
        ...cellIssue('sensors', line, 'rangeHigh', row.rangeHigh),
        code: 'range-empty',
        expected: `above rangeLow, ${row.rangeLow}`,
        message: `The range from ${row.rangeLow} to ${row.rangeHigh} is empty. Exchange or correct them.`,
      })
    if (row.lateAfterMinutes < row.intervalMinutes)
      issues.push({
        ...cellIssue('sensors', line, 'lateAfterMinutes', row.lateAfterMinutes),
        code: 'late-before-due',
        expected: `at least intervalMinutes, ${row.intervalMinutes}`,
        message: 'It would count as late before its next reading is due. Give more than one interval.',
      })
  }
  return issues
}
