import { everySite, knowsSite, type Membership, mayAt } from '#domain/access/membership.ts'
import type { RouteRule } from './route-rules.ts'

/**
 * How the server stands. Nobody has an account and it listens on loopback only: `only-here`, whoever is on this
 * machine reads and changes, or `visitors`, whoever is on it reads; `none-yet`: others reach it and nobody has an
 * account; `accounts`: there are some, whatever it listens on.
 */
export type Standing = 'only-here' | 'visitors' | 'none-yet' | 'accounts'

/** What is known of who asks. */
export interface Asker {
  /** Of an account or of a link by which one reads; null: neither signed in nor reading by a link. */
  readonly memberships: readonly Membership[] | null
  /** Signed in, and not a reader by a link alone. */
  readonly isPerson: boolean
  /** Site of the ingest token that came along, or `everySite`; null: none that holds. */
  readonly tokenSite: string | null
  /** The request came from a page that this server served. */
  readonly fromOwnPage: boolean
}

export type Decision =
  | 'allowed'
  | 'token-needed'
  | 'token-of-another-site'
  | 'own-page-needed'
  | 'same-origin-needed'
  | 'account-needed'
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
  if (takesToken && asker.tokenSite !== null)
    return asker.tokenSite === everySite || asker.tokenSite === site ? 'allowed' : 'token-of-another-site'
  if (isByName(rule) && !asker.isPerson) return standing === 'none-yet' ? 'no-account-yet' : 'sign-in-needed'
  if (standing === 'only-here' || standing === 'visitors') {
    if (!changes) return 'allowed'
    if (!asker.fromOwnPage) return takesToken ? 'token-needed' : 'own-page-needed'
    return standing === 'only-here' || 'changesNothing' in rule ? 'allowed' : 'account-needed'
  }
  if (asker.memberships === null) {
    if (takesToken && !asker.fromOwnPage) return 'token-needed'
    return standing === 'none-yet' ? 'no-account-yet' : 'sign-in-needed'
  }
  if (rule.for !== 'signed-in' && rule.for !== 'person' && rule.for !== 'administrators') {
    if (site === null || !knowsSite(asker.memberships, site)) return 'site-unknown'
    if (!mayAt(asker.memberships, site, rule.for)) return 'role-lacking'
  }
  if (rule.for === 'administrators' && !administersSomewhere(asker.memberships)) return 'role-lacking'
  return changes && !asker.fromOwnPage ? 'same-origin-needed' : 'allowed'
}

/** Whether only a person with an account is answered. */
const isByName = (rule: RouteRule): boolean =>
  rule.for === 'person' || (rule.for === 'administrators' && !rule.alsoHere) || 'byName' in rule

const administersSomewhere = (memberships: readonly Membership[]): boolean =>
  memberships.some(({ site }) => mayAt(memberships, site, 'administer')) ||
  mayAt(memberships, everySite, 'administer')
