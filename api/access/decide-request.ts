import { everySite, knowsSite, type Membership, mayAt } from '#domain/access/membership.ts'
import type { RouteRule } from './route-rules.ts'

/**
 * How the server stands. `only-here`: it listens on loopback only and nobody has an account; `none-yet`: others reach
 * it and nobody has an account; `accounts`: there are some, whatever it listens on.
 */
export type Standing = 'only-here' | 'none-yet' | 'accounts'

/** What is known of who asks. */
export interface Asker {
  /** Null: not signed in. */
  readonly memberships: readonly Membership[] | null
  readonly hasIngestToken: boolean
  /** The request came from a page that this server served. */
  readonly fromOwnPage: boolean
}

export type Decision =
  | 'allowed'
  | 'token-needed'
  | 'own-page-needed'
  | 'same-origin-needed'
  | 'no-account-yet'
  | 'sign-in-needed'
  | 'role-lacking'
  | 'site-unknown'

/**
 * Whether a request is answered: from the rule of its route, the site of its path, whether it changes something, who
 * asks and how the server stands. A site at which one has no role is unknown, not forbidden.
 */
export function decideRequest(
  rule: RouteRule,
  site: string | null,
  changes: boolean,
  asker: Asker,
  standing: Standing,
): Decision {
  if (rule.for === 'anyone') return changes && !asker.fromOwnPage ? 'same-origin-needed' : 'allowed'
  const takesToken = 'ingestToken' in rule
  if (takesToken && asker.hasIngestToken) return 'allowed'
  if (standing === 'only-here') {
    if (rule.for === 'administrators' && !rule.alsoHere) return 'sign-in-needed'
    if (!changes || asker.fromOwnPage) return 'allowed'
    return takesToken ? 'token-needed' : 'own-page-needed'
  }
  if (asker.memberships === null) {
    if (takesToken && !asker.fromOwnPage) return 'token-needed'
    return standing === 'none-yet' ? 'no-account-yet' : 'sign-in-needed'
  }
  if (rule.for !== 'signed-in' && rule.for !== 'administrators') {
    if (site === null || !knowsSite(asker.memberships, site)) return 'site-unknown'
    if (!mayAt(asker.memberships, site, rule.for)) return 'role-lacking'
  }
  if (rule.for === 'administrators' && !administersSomewhere(asker.memberships)) return 'role-lacking'
  return changes && !asker.fromOwnPage ? 'same-origin-needed' : 'allowed'
}

const administersSomewhere = (memberships: readonly Membership[]): boolean =>
  memberships.some(({ site }) => mayAt(memberships, site, 'administer')) ||
  mayAt(memberships, everySite, 'administer')
