import type { DutyShift, EscalationRow } from '../site/tables.ts'

/** One step of telling people: whom, and how long it waits for delivery and for an answer. */
export interface EscalationStep {
  readonly duty: string
  /** Null: everyone on then. */
  readonly order: number | null
  readonly undeliveredMinutes: number
  readonly unacknowledgedMinutes: number
}

/** Of a duty for which nothing is written: five minutes for delivery and fifteen for an answer. Our choice. */
const unwritten = { undeliveredMinutes: 5, unacknowledgedMinutes: 15 }

/**
 * The steps of a duty in order, at least one. Where none are written: every order of its shifts after another, then
 * everyone on.
 */
export function escalationSteps(
  duty: string,
  rows: readonly EscalationRow[],
  shifts: readonly Pick<DutyShift, 'duty' | 'order'>[],
): readonly EscalationStep[] {
  const written = rows
    .filter((row) => row.duty === duty)
    .sort((one, other) => one.step - other.step)
    .map(({ toDuty, toOrder, undeliveredMinutes, unacknowledgedMinutes }) => ({
      duty: toDuty ?? duty,
      order: toOrder,
      undeliveredMinutes,
      unacknowledgedMinutes,
    }))
  if (written.length > 0) return written
  const orders = [...new Set(shifts.filter((shift) => shift.duty === duty).map(({ order }) => order))]
  return [...orders.sort((one, other) => one - other), null].map((order) => ({ duty, order, ...unwritten }))
}

/** The steps of a duty as sentences, one each. */
export function escalationSentences(steps: readonly EscalationStep[]): readonly string[] {
  return steps.map((step, place) => {
    const who =
      step.order === null
        ? `Everyone on for ${step.duty}`
        : `Whoever is on for ${step.duty} in order ${step.order}`
    const undelivered = minutes(step.undeliveredMinutes)
    const unacknowledged = minutes(step.unacknowledgedMinutes)
    return place === steps.length - 1
      ? `${who} is told, and again every ${unacknowledged} until somebody acknowledges; every ${undelivered} while nothing is delivered. Where nobody is on, those of the last order are told all the same.`
      : `${who} is told. The next step follows ${undelivered} later when nothing is delivered, ${unacknowledged} later when nobody acknowledges, at once when nobody is on.`
  })
}

const minutes = (count: number) => (count === 1 ? '1 minute' : `${count} minutes`)
