import { groupBy } from '../group-by.ts'
import type { SiteModel } from '../site/site.ts'
import { placesOf } from './draft-minute.ts'
import type { ActionEntry, ActionStanding, Minute } from './minute.ts'

/** Minutes of a site with what was said of them since, in the order in which they were written. */
export function minutesOfSite(
  model: Pick<SiteModel, 'facts' | 'minutes' | 'actionEntries'>,
): readonly Minute[] {
  const entriesOf = groupBy(model.actionEntries, ({ minute }) => minute)
  return model.minutes
    .toSorted((one, other) => one.id - other.id)
    .map((row) => ({
      id: row.id,
      site: model.facts.id,
      meeting: row.meeting,
      kind: row.kind,
      text: row.text,
      places: placesOf(row.places),
      owner: row.owner,
      dueOn: row.dueOn,
      author: row.author,
      atEpochMs: row.at,
      entries: (entriesOf.get(row.id) ?? [])
        .toSorted((one, other) => one.entry - other.entry)
        .map(({ standing, note, author, at }): ActionEntry => ({ standing, note, author, atEpochMs: at })),
    }))
}

/** How an action stands by what was said of it last; null: a note. */
export const standingOf = ({ kind, entries }: Pick<Minute, 'kind' | 'entries'>): ActionStanding | null =>
  kind === 'note' ? null : (entries.at(-1)?.standing ?? 'open')

/** Whether an action is open and its day is past; on the day itself it is not yet. */
export const isOverdue = (minute: Pick<Minute, 'kind' | 'entries' | 'dueOn'>, today: string): boolean =>
  standingOf(minute) === 'open' && minute.dueOn !== null && minute.dueOn < today

/** Overdue actions first, the longest overdue before the others; then open ones by day, then what is settled, newest first. */
export function byAttention(minutes: readonly Minute[], today: string): readonly Minute[] {
  const rank = (minute: Minute) => (standingOf(minute) !== 'open' ? 2 : isOverdue(minute, today) ? 0 : 1)
  return minutes.toSorted((one, other) => {
    const apart = rank(one) - rank(other)
    if (apart !== 0) return apart
    if (rank(one) === 2) return other.id - one.id
    const [day, otherDay] = [one.dueOn ?? '', other.dueOn ?? '']
    return day === otherDay ? one.id - other.id : day < otherDay ? -1 : 1
  })
}
