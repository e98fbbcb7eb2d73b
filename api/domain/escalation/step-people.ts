import { contactWays, type Way } from '../roster/contact-ways.ts'
import { onDuty, type Roster } from '../roster/on-duty.ts'
import type { EscalationStep } from './escalation-steps.ts'

export interface StepPerson {
  readonly contact: string
  readonly ways: readonly Way[]
  /** First instant at which that turn is over; infinite where the person is told although off duty. */
  readonly untilEpochMs: number
}

/** Those that a step tells at an instant, each once; whoever cannot be reached in any way is not among them. */
export function peopleOnStep(roster: Roster, step: EscalationStep, atEpochMs: number): readonly StepPerson[] {
  const people = new Map<string, StepPerson>()
  for (const { order, contact, ways, untilEpochMs } of onDuty(roster, step.duty, atEpochMs)) {
    if ((step.order !== null && order !== step.order) || ways.length === 0) continue
    const until = Math.max(untilEpochMs, people.get(contact.id)?.untilEpochMs ?? untilEpochMs)
    people.set(contact.id, { contact: contact.id, ways, untilEpochMs: until })
  }
  return [...people.values()]
}

/** Everyone whom a step can tell at any time. */
export const everOnStep = ({ dutyShifts }: Roster, step: EscalationStep): ReadonlySet<string> =>
  new Set(
    dutyShifts
      .filter(({ duty, order }) => duty === step.duty && (step.order === null || order === step.order))
      .map(({ contact }) => contact),
  )

/** Those of a duty's last order, on or not, whose shifts hold at an instant: whom to tell where nobody is on. */
export function peopleOfLastOrder(roster: Roster, duty: string, atEpochMs: number): readonly StepPerson[] {
  const valid = roster.dutyShifts.filter(
    (shift) =>
      shift.duty === duty && shift.validFrom <= atEpochMs && atEpochMs < (shift.validUntil ?? Infinity),
  )
  const contactById = new Map(roster.contacts.map((contact) => [contact.id, contact]))
  const reachable = valid.flatMap(({ order, contact }) => {
    const known = contactById.get(contact)
    const ways = known ? contactWays(known) : []
    return ways.length > 0 ? [{ order, contact, ways, untilEpochMs: Number.POSITIVE_INFINITY }] : []
  })
  const last = Math.max(...reachable.map(({ order }) => order))
  return [
    ...new Map(
      reachable
        .filter(({ order }) => order === last)
        .map(({ order: _, ...person }) => [person.contact, person] as const),
    ).values(),
  ]
}
