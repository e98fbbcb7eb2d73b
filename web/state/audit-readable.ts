import type { Me } from '#contract/access.ts'
import { everySite, mayAt } from '#domain/access/membership.ts'
import { me } from './own-account.ts'
import { siteDocument } from './site-document.ts'

/** Whether whoever uses the page may read what was changed at the open site, by whom and why. */
export function isAuditReadable(): boolean {
  const known = me()
  if (known === null) return false
  if (isOpenHere(known)) return true
  return mayAt(known.person?.memberships ?? [], siteDocument()?.facts.id ?? '', 'read-audit')
}

/** Whether what is of the server, and of every site together, may be asked for. */
export function isWholeAuditReadable(): boolean {
  const known = me()
  if (known === null) return false
  return isOpenHere(known) || mayAt(known.person?.memberships ?? [], everySite, 'administer')
}

/** Nobody has an account and only this machine reaches the server: whoever is on it reads. */
const isOpenHere = ({ accounts }: Me): boolean => accounts === 'not-needed' || accounts === 'to-change'
