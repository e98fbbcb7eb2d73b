import type { ActionStanding, Minute } from '#domain/meeting/minute.ts'
import { isOverdue, standingOf } from '#domain/meeting/minutes-of-site.ts'

/** Minutes as a meeting goes through them: what is past its day, what is open, what was settled, and what was noted. */
export interface MinuteGroups {
  readonly overdue: readonly Minute[]
  readonly open: readonly Minute[]
  readonly done: readonly Minute[]
  readonly dropped: readonly Minute[]
  /** Notes of the meeting itself. */
  readonly notes: readonly Minute[]
}

/** `today` in the zone of the site (2027-09-14): on its day an action is not overdue yet. Earliest day first. */
export function minuteGroups(minutes: readonly Minute[], meeting: number, today: string): MinuteGroups {
  const actions = minutes
    .filter(({ kind }) => kind === 'action')
    .toSorted((one, other) => (one.dueOn ?? '9').localeCompare(other.dueOn ?? '9') || one.id - other.id)
  const standing = (wanted: ActionStanding) => actions.filter((one) => standingOf(one) === wanted)
  return {
    overdue: standing('open').filter((one) => isOverdue(one, today)),
    open: standing('open').filter((one) => !isOverdue(one, today)),
    done: standing('done').toReversed(),
    dropped: standing('dropped').toReversed(),
    notes: minutes.filter((one) => one.kind === 'note' && one.meeting === meeting),
  }
}
