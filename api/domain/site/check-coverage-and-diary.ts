import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** No more packets arrive than were sent, a test stands at one place, a diary place has both coordinates. */
export function checkCoverageAndDiary(site: SiteReadings): readonly Issue[] {
  const issues: Issue[] = []
  for (const { line, row } of site.coverageTests.sound)
    if (row.received > row.sent)
      issues.push({
        ...cellIssue('coverageTests', line, 'received', row.received),
        code: 'received-above-sent',
        expected: `at most ${row.sent}, the packets sent`,
        message: `${row.received} packets cannot have arrived of ${row.sent} sent. Correct one of the two.`,
      })
  for (const [test, rows] of groupBy(site.coverageTests.sound, ({ row }) => row.test)) {
    const first = rows[0]
    for (const { line, row } of rows.slice(1))
      if (
        first &&
        (row.eastingMetres !== first.row.eastingMetres || row.northingMetres !== first.row.northingMetres)
      )
        issues.push({
          ...cellIssue('coverageTests', line, 'eastingMetres', `${row.eastingMetres}, ${row.northingMetres}`),
          code: 'test-moved',
          expected: `${first.row.eastingMetres}, ${first.row.northingMetres} as in line ${first.line}`,
          message: `Test ${test} stands at two places. Give the second place a test number of its own.`,
        })
  }
  for (const { line, row } of site.diary.sound)
    if ((row.eastingMetres === null) !== (row.northingMetres === null))
      issues.push({
        ...cellIssue('diary', line, row.eastingMetres === null ? 'eastingMetres' : 'northingMetres', null),
        code: 'coordinate-missing',
        expected: 'both easting and northing, or neither',
        message: 'Only one of easting and northing is given. Give both or neither.',
      })
  return issues
}
