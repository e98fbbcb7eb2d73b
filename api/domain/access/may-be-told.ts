import type { Account } from './account.ts'
import { mayAt } from './membership.ts'

/**
 * Whether whoever has an account is told of a site's alerts where its roster names it: who may sign in, and may read the
 * site. A role that was taken away ends what is told by the account too.
 */
export const mayBeTold = ({ disabledAtEpochMs, memberships }: Account, site: string): boolean =>
  disabledAtEpochMs === null && mayAt(memberships, site, 'read-approved')
