import type { Issue } from '../outcome.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'

/** An approval is about a stretch that has a length and was past when it was given. */
export function checkApprovals(site: SiteReadings): readonly Issue[] {
  return site.approvals.sound.flatMap(({ line, row }): Issue[] => {
    const at = (message: string, code: string, expected: string) => ({
      ...cellIssue('approvals', line, 'untilAt', showInstant(row.untilAt)),
      code,
      expected,
      message,
    })
    if (row.untilAt <= row.fromAt)
      return [
        at(
          `${row.id} would end at ${showInstant(row.untilAt)}, not later than it begins. Correct one of the two.`,
          'ends-before-begin',
          `later than fromAt, ${showInstant(row.fromAt)}`,
        ),
      ]
    if (row.untilAt > row.at)
      return [
        at(
          `${row.id} approves readings up to ${showInstant(row.untilAt)}, later than it was given. Approve only what has been read.`,
          'not-past',
          `at most its own instant, ${showInstant(row.at)}`,
        ),
      ]
    return []
  })
}
