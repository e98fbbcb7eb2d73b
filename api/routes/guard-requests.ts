import { createHash, timingSafeEqual } from 'node:crypto'
import type { Context, MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import { METHOD_NAME_ALL } from 'hono/router'
import type { Access, Caller } from '../access/create-access.ts'
import { type Decision, decideRequest, type Standing } from '../access/decide-request.ts'
import { routeRules } from '../access/route-rules.ts'
import { connectionOf, isFromOwnPage } from './connection-of.ts'
import { onNotFound, problem } from './problem.ts'
import { sessionToken } from './session-cookie.ts'
import { noSiteNamed } from './site-must-exist.ts'

declare module 'hono' {
  interface ContextVariableMap {
    /** Who is signed in; null where nobody is. */
    caller: Caller | null
    standing: Standing
  }
}

interface Guarding {
  readonly access: Access
  readonly ingestTokenSha256: string | null
  readonly loopbackOnly: boolean
  readonly behindTls?: boolean
}

/** The one place that says who is answered: every request passes here before anything else looks at it. */
export const guardRequests =
  ({ access, ingestTokenSha256, loopbackOnly, behindTls = false }: Guarding): MiddlewareHandler =>
  async (context, next) => {
    const routes = matchedRoutes(context).filter(({ method }) => method !== METHOD_NAME_ALL)
    // Nothing between here and the answer is to tell more than that.
    if (routes.length === 0) return onNotFound(context)
    const standing = (await access.hasAccounts()) ? 'accounts' : loopbackOnly ? 'only-here' : 'none-yet'
    const token = standing === 'accounts' && sessionToken(context, connectionOf(context, behindTls))
    const caller = token ? await access.findCaller(token) : null
    const asker = {
      memberships: caller?.account.memberships ?? null,
      hasIngestToken: isIngestToken(context.req.header('authorization'), ingestTokenSha256),
      fromOwnPage: isFromOwnPage(context),
    }
    const changes = !['GET', 'HEAD'].includes(context.req.method)
    for (const { method, path } of routes) {
      const rule = routeRules[`${method} ${path}`]
      if (!rule) throw new Error(`${method} ${path} has no rule that says who may ask for it.`)
      const site = siteOf(path, context.req.path)
      const decision = decideRequest(rule, site, changes, asker, standing)
      if (decision !== 'allowed') return refuse(context, decision, site ?? '')
    }
    context.set('caller', caller)
    context.set('standing', standing)
    return next()
  }

function isIngestToken(authorization: string | undefined, sha256: string | null): boolean {
  const bearer = /^Bearer ([\w-]{20,200})$/.exec(authorization ?? '')?.[1]
  if (!bearer || !sha256) return false
  return timingSafeEqual(createHash('sha256').update(bearer).digest(), Buffer.from(sha256, 'hex'))
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
        'Adding files needs the ingest token: send it as "Authorization: Bearer …". The server says at its start where the token is kept.',
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
