import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import { nearestWord } from './nearest-word.ts'
import { cellIssue, type SiteReadings } from './site-readings.ts'

/** Steps of a duty are counted 1, 2, 3 …, tell a duty that somebody does, and wait longer for an answer than for delivery. */
export function checkEscalations(site: Pick<SiteReadings, 'escalations' | 'dutyShifts'>): readonly Issue[] {
  const shifts = site.dutyShifts.sound.map(({ row }) => row)
  const duties = new Set(shifts.map(({ duty }) => duty))
  const issues: Issue[] = []
  for (const rows of groupBy(site.escalations.sound, ({ row }) => row.duty).values()) {
    const steps = rows.toSorted((one, other) => one.row.step - other.row.step)
    steps.forEach(({ line, row }, place) => {
      if (row.step !== place + 1 && steps[place - 1]?.row.step !== row.step)
        issues.push({
          ...cellIssue('escalations', line, 'step', row.step),
          code: 'step-missing',
          expected: String(place + 1),
          message: `Steps of ${row.duty} go from ${place} to ${row.step}. Count them 1, 2, 3 without gaps.`,
        })
    })
  }
  for (const { line, row } of site.escalations.sound) {
    const told = row.toDuty ?? row.duty
    const column = row.toDuty === null ? 'duty' : 'toDuty'
    const nearest = nearestWord(told, duties)
    if (!duties.has(told)) {
      if (site.dutyShifts.unsound.length === 0)
        issues.push({
          ...cellIssue('escalations', line, column, told),
          code: 'duty-unknown',
          expected: `a duty of ${site.dutyShifts.file}`,
          message: `Nobody ever does "${told}". ${nearest ? `Did you mean "${nearest}"?` : 'Add a shift of it, or tell another duty.'}`,
        })
    } else if (row.toOrder !== null && !shifts.some((one) => one.duty === told && one.order === row.toOrder))
      issues.push({
        ...cellIssue('escalations', line, 'toOrder', row.toOrder),
        code: 'order-unknown',
        expected: `an order that a shift of ${told} has`,
        message: `No shift of ${told} has order ${row.toOrder}. Add one, or leave toOrder empty to tell everyone on then.`,
      })
    if (row.unacknowledgedMinutes < row.undeliveredMinutes)
      issues.push({
        ...cellIssue('escalations', line, 'unacknowledgedMinutes', row.unacknowledgedMinutes),
        code: 'answer-before-delivery',
        expected: `${row.undeliveredMinutes} or more`,
        message: `An answer is waited for ${row.unacknowledgedMinutes} minutes and delivery for ${row.undeliveredMinutes}. Wait at least as long for the answer.`,
      })
  }
  return issues
}
