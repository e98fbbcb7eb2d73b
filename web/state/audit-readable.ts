import { everySite, mayAt } from '#domain/access/membership.ts'
import { me } from './own-account.ts'
import { siteDocument } from './site-document.ts'

/** Whether whoever uses the page may read what was changed at the open site, by whom and why. */
export function isAuditReadable(): boolean {
  const known = me()
  if (known === null) return false
  if (known.accounts === 'not-needed') return true
  return mayAt(known.person?.memberships ?? [], siteDocument()?.facts.id ?? '', 'read-audit')
}

/** Whether what is of the server, and of every site together, may be asked for. */
export function isWholeAuditReadable(): boolean {
  const known = me()
  if (known === null) return false
  return known.accounts === 'not-needed' || mayAt(known.person?.memberships ?? [], everySite, 'administer')
}
