import { type Context, Hono } from 'hono'
import { lookSchema, type Me, newAccountSchema, signInSchema } from '#contract/access.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Access } from '../access/create-access.ts'
import { TooManyAtOnce } from '../access/password-hash.ts'
import { type Connection, connectionOf } from './connection-of.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { giveSessionCookie, sessionToken, takeSessionCookie } from './session-cookie.ts'

/** Signing in and out, and making the account of an invitation. */
export function sessionRoutes({
  access,
  behindTls = false,
}: {
  readonly access: Access
  readonly behindTls?: boolean
}): Hono {
  const routes = new Hono()
  const reached = (context: Context) => connectionOf(context, behindTls)

  routes.get('/api/me', (context) => {
    const account = context.get('caller')?.account
    const standing = context.get('standing')
    context.header('cache-control', 'no-store')
    return context.json({
      accounts: standing === 'accounts' ? 'needed' : standing === 'none-yet' ? 'none-yet' : 'not-needed',
      person: account
        ? { name: account.name, signInName: account.signInName, memberships: account.memberships }
        : null,
      hindrance: hindranceOf(reached(context)),
    } satisfies Me)
  })

  routes.post('/api/sessions', shortBody, async (context) => {
    const connection = reached(context)
    const hindrance = hindranceOf(connection)
    if (hindrance) return problem(context, 403, 'Connection not encrypted', hindrance)
    const body = await readBody(context, signInSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const before = sessionToken(context, connection)
    const answer = await access
      .signIn({
        ...body.value,
        device: context.req.header('user-agent') ?? '',
        address: connection.address,
      })
      .catch(busy)
    if ('waitMs' in answer) return tooOften(context, answer.waitMs)
    if ('wrong' in answer)
      return problem(
        context,
        401,
        'Not signed in',
        'Name or password is wrong, or the account is disabled. After a few wrong ones the server waits before it judges the next.',
      )
    // What the device had before is ended, never taken over.
    const earlier = before ? await access.findCaller(before) : null
    if (earlier) await access.signOut(earlier)
    giveSessionCookie(context, connection, answer.token)
    context.header('cache-control', 'no-store')
    return context.json({ name: answer.account.name }, 201)
  })

  routes.delete('/api/sessions/current', async (context) => {
    const caller = context.get('caller')
    if (caller) await access.signOut(caller)
    takeSessionCookie(context, reached(context))
    return context.body(null, 204)
  })

  routes.post('/api/invitations/look', shortBody, async (context) => {
    const body = await readBody(context, lookSchema)
    const offered = body.ok ? await access.lookAtInvitation(body.value.token) : null
    context.header('cache-control', 'no-store')
    return offered
      ? context.json(offered)
      : problem(
          context,
          404,
          'No such invitation',
          'This link was used already or has expired. Ask an administrator for another one.',
        )
  })

  routes.post('/api/accounts', shortBody, async (context) => {
    const hindrance = hindranceOf(reached(context))
    if (hindrance) return problem(context, 403, 'Connection not encrypted', hindrance)
    const body = await readBody(context, newAccountSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { token, ...person } = body.value
    const made = await access.redeem(token, person).catch(busy)
    if ('waitMs' in made) return tooOften(context, made.waitMs)
    if (!made.ok) return notUnderstood(context, made.issues)
    return context.json(made.value, 201)
  })

  return routes
}

/** A password is not sent where others can read along. */
const hindranceOf = ({ isEncrypted, isLocal }: Connection): string | null =>
  isEncrypted || isLocal
    ? null
    : 'This connection is not encrypted, so a password would be readable on its way and nobody can sign in over it. Put a proxy that speaks TLS in front of the server, set STILLGROUND_BEHIND_TLS=yes, and open the page by https.'

function busy(failure: unknown): { readonly waitMs: number } {
  if (failure instanceof TooManyAtOnce) return { waitMs: 2000 }
  throw failure
}

function tooOften(context: Context, waitMs: number): Response {
  const seconds = Math.ceil(waitMs / 1000)
  context.header('retry-after', String(seconds))
  return problem(
    context,
    429,
    'Too many attempts',
    `There were too many attempts to sign in. Nothing was judged this time; try again in ${seconds} seconds.`,
  )
}

const notUnderstood = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not taken', 'Nothing was changed; what is wrong stands in issues.', issues)
