import { mayAt } from '#domain/access/membership.ts'
import type { Action } from '#domain/access/permissions.ts'
import { me } from './own-account.ts'
import { siteDocument } from './site-document.ts'

/** Whether nobody has an account here and the page reads only. */
export const isVisitor = (): boolean => me()?.accounts === 'to-change' && me()?.person === null

/**
 * Why whoever is at this page may not do something at the open site; null: may, or it is not known: without a network
 * field work goes on. The server judges again whatever is asked of it.
 */
export function hindranceTo(action: Action): string | null {
  const known = me()
  const site = siteDocument()?.facts.id
  if (known === null || site === undefined) return null
  const { person, link } = known
  if (person && mayAt(person.memberships, site, action)) return null
  if (person)
    return `Your role at this site does not let you ${words[action]}. An administrator can change it.`
  if (isVisitor())
    return reading.has(action)
      ? null
      : `You look at this as a visitor. To ${words[action]} you need an account: the server printed a link for the first one at its start.`
  if (link) return `You read by a link. To ${words[action]} you need an account.`
  return null
}

/** What whoever opens the page on the machine itself may without an account. */
const reading: ReadonlySet<Action> = new Set(['read-approved', 'read-all', 'read-audit'])

const words: Readonly<Record<Action, string>> = {
  'read-approved': 'read',
  'read-all': 'read files and field work',
  add: 'add readings and field work',
  'change-records': 'change records',
  'approve-levels': 'approve levels',
  'approve-readings': 'approve readings',
  'read-audit': 'read the audit record',
  administer: 'say who may do what',
}
