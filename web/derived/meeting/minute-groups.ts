import type { ActionStanding, Minute } from '#domain/meeting/minute.ts'

/** Minutes as a meeting goes through them: what is past its day, what is open, what was settled, and what was noted. */
export interface MinuteGroups {
  readonly overdue: readonly Minute[]
  readonly open: readonly Minute[]
  readonly done: readonly Minute[]
  readonly dropped: readonly Minute[]
  /** Notes of the meeting itself. */
  readonly notes: readonly Minute[]
}

/** How an action stands by what was said of it last. */
export const standingOfAction = ({ entries }: Pick<Minute, 'entries'>): ActionStanding =>
  entries.at(-1)?.standing ?? 'open'

/** `today` in the zone of the site (2027-09-14): on its day an action is not overdue yet. Earliest day first. */
export function minuteGroups(minutes: readonly Minute[], meeting: number, today: string): MinuteGroups {
  const actions = minutes
    .filter(({ kind }) => kind === 'action')
    .toSorted((one, other) => (one.dueOn ?? '9').localeCompare(other.dueOn ?? '9') || one.id - other.id)
  const standing = (wanted: ActionStanding) => actions.filter((one) => standingOfAction(one) === wanted)
  const isOverdue = ({ dueOn }: Minute) => dueOn !== null && dueOn < today
  return {
    overdue: standing('open').filter(isOverdue),
    open: standing('open').filter((one) => !isOverdue(one)),
    done: standing('done').toReversed(),
    dropped: standing('dropped').toReversed(),
    notes: minutes.filter((one) => one.kind === 'note' && one.meeting === meeting),
  }
}
