import type { Minute } from './minute.ts'
import { isOverdue, standingOf } from './minutes-of-site.ts'
import { daysBetween, sayDay } from './site-day.ts'

/** How an action stands, for a person: `overdue by 3 days, due 14 Sep 2027`. A note: empty. */
export function standingSentence(minute: Pick<Minute, 'kind' | 'entries' | 'dueOn'>, today: string): string {
  const standing = standingOf(minute)
  if (standing === null || minute.dueOn === null) return ''
  const due = `due ${sayDay(minute.dueOn)}`
  if (standing !== 'open') return `${standing}, was ${due}`
  if (isOverdue(minute, today)) return `overdue by ${days(daysBetween(minute.dueOn, today))}, ${due}`
  return minute.dueOn === today ? `open, due today, ${sayDay(minute.dueOn)}` : `open, ${due}`
}

/** Open actions in words: `3 open actions, 1 of them overdue`. */
export function openActionsSentence(minutes: readonly Minute[], today: string): string {
  const open = minutes.filter((minute) => standingOf(minute) === 'open').length
  const overdue = minutes.filter((minute) => isOverdue(minute, today)).length
  if (open === 0)
    return minutes.some(({ kind }) => kind === 'action') ? 'no open action' : 'no action was agreed'
  const actions = open === 1 ? '1 open action' : `${open} open actions`
  if (overdue === 0) return actions
  if (overdue < open) return `${actions}, ${overdue} of them overdue`
  return open === 1 ? `${actions}, overdue` : `${actions}, all overdue`
}

const days = (count: number) => (count === 1 ? '1 day' : `${count} days`)
