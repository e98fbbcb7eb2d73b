import { everySite } from '#domain/access/membership.ts'
import type { Role } from '#domain/access/permissions.ts'

/** What a role may, as a person reads it. */
export const roleWords: Readonly<Record<Role, string>> = {
  viewer: 'viewer: reads what is published',
  field: 'field: adds readings and field work',
  engineer: 'engineer: also changes records',
  approver: 'approver: also approves levels',
  administrator: 'administrator: also says who may do what',
}

/** A site by its id, as a person reads it. */
export const siteWords = (site: string): string => (site === everySite ? 'every site' : site)
