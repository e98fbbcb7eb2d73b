import { isReachable } from './contact-ways.ts'
import type { Roster } from './on-duty.ts'
import { shiftStretches } from './shift-stretches.ts'

/** How far ahead a roster is looked through where nothing else is said: eight weeks. */
export const coverageMs = 56 * 86_400_000

/** A stretch in which nobody would be told first: from inclusive, until exclusive. */
export interface RosterHole {
  readonly duty: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** Nobody of order 1 is on; or who is on has neither mail nor webhook. */
  readonly because: 'nobody' | 'unreachable'
}

/** Every hole of a duty in a stretch of time, in order. A duty without shifts is one hole. */
export function coverageHoles(
  roster: Roster,
  duty: string,
  fromEpochMs: number,
  untilEpochMs: number,
): readonly RosterHole[] {
  const contactById = new Map(roster.contacts.map((contact) => [contact.id, contact]))
  const turns = roster.dutyShifts
    .filter((shift) => shift.duty === duty && shift.order === 1)
    .flatMap((shift) => {
      const contact = contactById.get(shift.contact)
      const reachable = contact !== undefined && isReachable(contact)
      return shiftStretches(shift, roster.holidays, fromEpochMs, untilEpochMs).map((turn) => ({
        ...turn,
        reachable,
      }))
    })
  const edges = turns.flatMap((turn) => [turn.fromEpochMs, turn.untilEpochMs])
  const cuts = [
    ...new Set([fromEpochMs, ...edges.filter((at) => at > fromEpochMs && at < untilEpochMs), untilEpochMs]),
  ].sort((one, other) => one - other)
  const holes: RosterHole[] = []
  cuts.slice(0, -1).forEach((from, place) => {
    const on = turns.filter((turn) => turn.fromEpochMs <= from && turn.untilEpochMs > from)
    if (on.some(({ reachable }) => reachable)) return
    const because = on.length === 0 ? 'nobody' : 'unreachable'
    const until = cuts[place + 1] ?? untilEpochMs
    const before = holes.at(-1)
    if (before?.untilEpochMs === from && before.because === because)
      holes[holes.length - 1] = { ...before, untilEpochMs: until }
    else holes.push({ duty, fromEpochMs: from, untilEpochMs: until, because })
  })
  return holes
}
