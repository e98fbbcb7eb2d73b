import { type Action, type Role, roleMay } from './permissions.ts'

/** In place of a site's id: every site there is and those that will come. No site has this id. */
export const everySite = '*'

/** What an account may do where. */
export interface Membership {
  /** A site's id, or `everySite`. */
  readonly site: string
  readonly role: Role
}

/** Whether any of a person's roles at a site allows it; a role everywhere is a role at that site too. */
export const mayAt = (memberships: readonly Membership[], site: string, action: Action): boolean =>
  memberships.some((one) => (one.site === site || one.site === everySite) && roleMay(one.role, action))

/** Whether a person may know that there is such a site. */
export const knowsSite = (memberships: readonly Membership[], site: string): boolean =>
  memberships.some((one) => one.site === site || one.site === everySite)
