import type { SiteModel } from '../site/site.ts'
import type { Contact } from '../site/tables.ts'
import { contactWays, type Way } from './contact-ways.ts'
import { shiftStretches } from './shift-stretches.ts'

/** Who is told, and when each is on. */
export type Roster = Pick<SiteModel, 'contacts' | 'dutyShifts' | 'holidays'>

export interface OnDuty {
  readonly order: number
  readonly contact: Contact
  readonly ways: readonly Way[]
  /** Id of the shift. */
  readonly shift: string
  /** First instant at which that turn is over. */
  readonly untilEpochMs: number
}

/** Everyone on for a duty at an instant, those told first before the others; empty: a hole in the roster. */
export function onDuty(roster: Roster, duty: string, atEpochMs: number): readonly OnDuty[] {
  return roster.dutyShifts
    .filter((shift) => shift.duty === duty)
    .flatMap((shift): readonly OnDuty[] => {
      const turn = shiftStretches(shift, roster.holidays, atEpochMs, atEpochMs + 1).at(-1)
      const contact = roster.contacts.find(({ id }) => id === shift.contact)
      if (!turn || !contact) return []
      const { order, id } = shift
      return [{ order, contact, ways: contactWays(contact), shift: id, untilEpochMs: turn.untilEpochMs }]
    })
    .sort((one, other) => one.order - other.order)
}

/** Every duty that a site speaks of: owners of its trigger levels first, then those of shifts, steps and the drill. */
export function dutiesOf({
  triggerLevels,
  dutyShifts,
  escalations,
  facts,
}: Pick<SiteModel, 'triggerLevels' | 'dutyShifts' | 'escalations' | 'facts'>): readonly string[] {
  return [
    ...new Set([
      ...triggerLevels.map(({ owner }) => owner),
      ...dutyShifts.map(({ duty }) => duty),
      ...escalations.flatMap(({ duty, toDuty }) => (toDuty === null ? [duty] : [duty, toDuty])),
      ...(facts.drillDuty ? [facts.drillDuty] : []),
    ]),
  ]
}
