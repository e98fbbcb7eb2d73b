import { timingSafeEqual } from 'node:crypto'
import type { Context, MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { METHOD_NAME_ALL } from 'hono/router'
import { everySite, type Membership } from '#domain/access/membership.ts'
import type { Access, Caller } from '../access/create-access.ts'
import { type Decision, decideRequest, type Standing } from '../access/decide-request.ts'
import { routeRules } from '../access/route-rules.ts'
import { sha256OfToken } from '../access/secret-token.ts'
import type { OpenLink } from '../access/share-links.ts'
import { connectionOf, isFromOwnPage } from './connection-of.ts'
import { linkToken } from './link-cookie.ts'
import { onNotFound, problem } from './problem.ts'
import { sessionToken } from './session-cookie.ts'
import { noSiteNamed } from './site-must-exist.ts'

declare module 'hono' {
  interface ContextVariableMap {
    /** Who is signed in; null where nobody is. */
    caller: Caller | null
    /** By which link one reads, beside what one may by an account; null: by none that holds. */
    openLink: OpenLink | null
    /** What whoever asks may do where; null: nobody asks who. */
    memberships: readonly Membership[] | null
    /** Name of the ingest token that came along; empty: that of the data folder; null: none that holds. */
    ingestTokenName: string | null
    standing: Standing
  }
}

interface Guarding {
  readonly access: Access
  readonly ingestTokenSha256: string | null
  readonly loopbackOnly: boolean
  readonly visitorsOnly?: boolean
  readonly behindTls?: boolean
  readonly report?: (line: string) => void
}

/** The one place that says who is answered: every request passes here before anything else looks at it. */
export const guardRequests =
  ({
    access,
    ingestTokenSha256,
    loopbackOnly,
    visitorsOnly = false,
    behindTls = false,
    report = () => {},
  }: Guarding): MiddlewareHandler =>
  async (context, next) => {
    const routes = matchedRoutes(context).filter(({ method }) => method !== METHOD_NAME_ALL)
    // Nothing between here and the answer is to tell more than that.
    if (routes.length === 0) return onNotFound(context)
    const withoutAccounts = loopbackOnly ? (visitorsOnly ? 'visitors' : 'only-here') : 'none-yet'
    const standing = (await access.hasAccounts()) ? 'accounts' : withoutAccounts
    const connection = connectionOf(context, behindTls)
    const session = standing === 'accounts' && sessionToken(context, connection)
    const caller = session ? await access.findCaller(session) : null
    const link = standing === 'accounts' && linkToken(context, connection)
    const openLink = link ? await access.shareLinks.find(link) : null
    const memberships = membershipsOf(caller, openLink)
    const token = await findToken(access, context.req.header('authorization'), ingestTokenSha256)
    const asker = {
      memberships,
      isPerson: caller !== null,
      tokenSite: token?.site ?? null,
      fromOwnPage: isFromOwnPage(context),
    }
    const changes = !['GET', 'HEAD'].includes(context.req.method)
    for (const { method, path } of routes) {
      const rule = routeRules[`${method} ${path}`]
      if (!rule) throw new Error(`${method} ${path} has no rule that says who may ask for it.`)
      const site = siteOf(path, context.req.path)
      const decision = decideRequest(rule, site, changes, asker, standing)
      if (decision === 'allowed') continue
      if (caller || token)
        report(
          `Refused ${method} ${new URL(context.req.url).pathname.slice(0, 200)} to ${caller?.account.signInName ?? 'an ingest token'}, ${connection.address}: ${decision}`,
        )
      return refuse(context, decision, site ?? '')
    }
    context.set('caller', caller)
    context.set('openLink', openLink)
    context.set('memberships', memberships)
    context.set('ingestTokenName', token?.name ?? null)
    context.set('standing', standing)
    return next()
  }

/** What an account may, and what a link adds to it: to read its site as a viewer. */
function membershipsOf(caller: Caller | null, openLink: OpenLink | null): readonly Membership[] | null {
  const read = openLink ? [{ site: openLink.link.site, role: 'viewer' as const }] : []
  return caller ? [...caller.account.memberships, ...read] : openLink && read
}

/** The token of the data folder is for every site and has no name. */
async function findToken(
  access: Access,
  authorization: string | undefined,
  sha256: string | null,
): Promise<{ readonly site: string; readonly name: string } | null> {
  const bearer = /^Bearer ([\w-]{20,200})$/.exec(authorization ?? '')?.[1]
  if (!bearer) return null
  const isOfFolder = sha256 && timingSafeEqual(Buffer.from(sha256OfToken(bearer)), Buffer.from(sha256))
  return isOfFolder ? { site: everySite, name: '' } : access.ingestTokens.find(bearer)
}

/** The site that a path names, decoded as its route will decode it; null: it names none. */
function siteOf(routePath: string, path: string): string | null {
  const at = routePath.split('/').indexOf(':site')
  const word = at < 0 ? undefined : path.split('/')[at]
  if (word === undefined) return null
  try {
    return decodeURIComponent(word)
  } catch {
    return null
  }
}

function refuse(context: Context, decision: Exclude<Decision, 'allowed'>, site: string): Response {
  switch (decision) {
    case 'token-needed':
      context.header('www-authenticate', 'Bearer')
      return problem(
        context,
        401,
        'Token needed',
        'Adding files needs an ingest token: send it as "Authorization: Bearer …". An administrator of the site makes one; the server says at its start where its own is kept.',
      )
    case 'token-of-another-site':
      return problem(
        context,
        403,
        'Token of another site',
        'This ingest token adds readings at another site and does nothing here. An administrator of this site makes one for it.',
      )
    case 'account-needed':
      return problem(
        context,
        403,
        'Account needed',
        'Without an account this page reads and changes nothing. Open the link for the first administrator that the server printed at its start, make an account, and do it again. To try changes without an account, start with --open-for-changes.',
      )
    case 'own-page-needed':
      return problem(
        context,
        403,
        'Records are changed on this machine only',
        'Records can be changed by the page that this server serves, opened on the same machine while the server listens on loopback only. The ingest token adds readings and nothing else.',
      )
    case 'same-origin-needed':
      return problem(
        context,
        403,
        'Not from this page',
        'Changes are taken from the page that this server serves, and the browser did not say that it was that page. Open the page itself and do it there.',
      )
    case 'no-account-yet':
      return problem(
        context,
        401,
        'No account yet',
        'Other devices reach this server and nobody has an account here yet. Whoever runs it finds a link for the first administrator in what it printed at its start.',
      )
    case 'sign-in-needed':
      return problem(context, 401, 'Sign in', 'This needs a session. Sign in, then do it again.')
    case 'role-lacking':
      return problem(
        context,
        403,
        'Not part of your role',
        'Your role does not allow this here. An administrator of the site can change your role.',
      )
    case 'site-unknown':
      return noSiteNamed(context, site)
  }
}
