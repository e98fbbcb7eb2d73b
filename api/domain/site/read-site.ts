import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { checkAlignments } from './check-alignments.ts'
import { checkApprovals } from './check-approvals.ts'
import { checkCalibrations } from './check-calibrations.ts'
import { checkControlPoints } from './check-control-points.ts'
import { checkCoverageAndDiary } from './check-coverage-and-diary.ts'
import { checkEscalations } from './check-escalations.ts'
import { checkGround } from './check-ground.ts'
import { checkHoleSurveys } from './check-hole-surveys.ts'
import { checkJoins } from './check-joins.ts'
import { checkLevels } from './check-levels.ts'
import { checkLimitsOfChecks } from './check-limits-of-checks.ts'
import { checkMeetings } from './check-meetings.ts'
import { checkPositions } from './check-positions.ts'
import { checkPredictions } from './check-predictions.ts'
import { checkReduction } from './check-reduction.ts'
import { checkReferences } from './check-references.ts'
import { checkRoster } from './check-roster.ts'
import { checkSensorBarometers } from './check-sensor-barometers.ts'
import { checkSensors } from './check-sensors.ts'
import { checkSpans } from './check-spans.ts'
import { checkSpiralSurveys } from './check-spiral-surveys.ts'
import { checkSuppressions } from './check-suppressions.ts'
import { checkVerdicts } from './check-verdicts.ts'
import { checkWells } from './check-wells.ts'
import { checkWiring } from './check-wiring.ts'
import { checkZeroReadings } from './check-zero-readings.ts'
import type { AnyTable } from './column.ts'
import { factsFile, readFacts } from './read-facts.ts'
import { readTable, type TableReading } from './read-table.ts'
import { readWorks, worksFile } from './read-works.ts'
import type { SiteModel } from './site.ts'
import type { SiteReadings } from './site-readings.ts'
import { siteTables, type TableName } from './tables.ts'

const tableNames = Object.keys(siteTables) as TableName[]

/** Names of the files of a site folder that `readSite` needs; others in the folder are not looked at. */
export const siteFiles: readonly string[] = [
  factsFile,
  worksFile,
  ...tableNames.map((name) => siteTables[name].file),
]

/** Those of them that a folder may leave out. */
export const optionalSiteFiles: readonly string[] = tableNames.flatMap((name) => {
  const table: AnyTable = siteTables[name]
  return table.optional ? [table.file] : []
})

/**
 * Reads a site folder, file name to text. All or nothing: either the whole model, or every fault in every
 * file, by file and line.
 */
export function readSite(files: ReadonlyMap<string, string>): Outcome<SiteModel> {
  const issues: Issue[] = siteFiles
    .filter((file) => !files.has(file) && !optionalSiteFiles.includes(file))
    .map(missingFile)
  const factsText = files.get(factsFile)
  const { facts, issues: factsIssues } =
    factsText === undefined ? { facts: null, issues: [] } : readFacts(factsText)
  const worksText = files.get(worksFile)
  const { works, issues: worksIssues } =
    worksText === undefined ? { works: null, issues: [] } : readWorks(worksText)
  const readings = Object.fromEntries(
    tableNames.map((name) => {
      const table: AnyTable = siteTables[name]
      const content = files.get(table.file)
      return [name, content === undefined ? absentTable(table) : readTable(table, content)]
    }),
  ) as unknown as SiteReadings

  issues.push(...factsIssues, ...worksIssues, ...tableNames.flatMap((name) => readings[name].issues))
  // A whole missing table makes every reference to it look broken: tell that once only.
  const absent = new Set(
    tableNames.filter((name) => {
      const { file } = siteTables[name]
      return !files.has(file) && !optionalSiteFiles.includes(file)
    }),
  )
  issues.push(
    ...(absent.size === 0 ? checkReferences(readings) : []),
    ...checkPositions(readings),
    ...checkSpans(readings),
    ...checkGround(readings),
    ...checkHoleSurveys(readings),
    ...checkSpiralSurveys(readings),
    ...checkControlPoints(readings, facts),
    ...checkSensors(readings),
    ...checkSensorBarometers(readings),
    ...checkWiring(readings),
    ...(absent.has('calibrationSteps') ? [] : checkCalibrations(readings)),
    ...(absent.has('sensors') || absent.has('points') ? [] : checkReduction(readings)),
    ...(absent.has('sensors') || absent.has('instruments') || absent.has('points')
      ? []
      : checkLevels(readings, facts)),
    ...checkCoverageAndDiary(readings),
    ...(absent.size === 0 ? checkLimitsOfChecks(readings) : []),
    ...(absent.size === 0 ? checkVerdicts(readings) : []),
    ...checkPredictions(readings),
    ...(absent.size === 0 ? checkZeroReadings(readings) : []),
    ...(absent.size === 0 ? checkJoins(readings) : []),
    ...checkAlignments(readings, facts, works),
    ...checkWells(readings, works),
    ...checkApprovals(readings),
    ...checkRoster(readings),
    ...checkEscalations(readings),
    ...(absent.size === 0 ? checkSuppressions(readings) : []),
    ...(absent.size === 0 ? checkMeetings(readings, facts) : []),
  )
  if (issues.length > 0 || !facts || !works) return reject(...inFileOrder(issues))
  const rows = Object.fromEntries(
    tableNames.map((name) => [name, readings[name].sound.map(({ row }) => row)]),
  )
  return accept({ facts, works, ...rows } as unknown as SiteModel)
}

function missingFile(file: string): Issue {
  return {
    code: 'file-missing',
    file,
    expected: file,
    message: `${file} is missing from the folder. Add it; a table without rows holds its headings only.`,
  }
}

function absentTable(table: AnyTable): TableReading<never> {
  return { file: table.file, sound: [], unsound: [], names: new Map(), references: [], issues: [] }
}

function inFileOrder(issues: readonly Issue[]): readonly Issue[] {
  const fileOf = (issue: Issue) => siteFiles.indexOf(issue.file ?? '')
  return issues.toSorted((a, b) => fileOf(a) - fileOf(b) || (a.line ?? 0) - (b.line ?? 0))
}
