import { type Context, Hono } from 'hono'
import { lookSchema, type Me, newAccountSchema, signInSchema } from '#contract/access.ts'
import { passkeySignInSchema } from '#contract/access-keys.ts'
import type { Account } from '#domain/access/account.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Access } from '../access/create-access.ts'
import type { Standing } from '../access/decide-request.ts'
import { busy, hindranceOf, notEncrypted, tooOften } from './attempt-answers.ts'
import { connectionOf } from './connection-of.ts'
import { takeLinkCookie } from './link-cookie.ts'
import { noPasskeyHere } from './own-keys.ts'
import { passkeyPlaceOf } from './passkey-place.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { giveSessionCookie, sessionToken, takeSessionCookie } from './session-cookie.ts'

/** Signing in and out, and making the account of an invitation. */
export function sessionRoutes({
  access,
  behindTls = false,
  report,
}: {
  readonly access: Access
  readonly behindTls?: boolean
  readonly report: (line: string) => void
}): Hono {
  const routes = new Hono()
  const reached = (context: Context) => connectionOf(context, behindTls)

  routes.get('/api/me', (context) => {
    const account = context.get('caller')?.account
    const openLink = context.get('openLink')
    context.header('cache-control', 'no-store')
    return context.json({
      accounts: needOf[context.get('standing')],
      person: account
        ? { name: account.name, signInName: account.signInName, memberships: account.memberships }
        : null,
      link: openLink && {
        site: openLink.link.site,
        makerName: openLink.makerName,
        expiresAtEpochMs: openLink.link.expiresAtEpochMs,
      },
      hindrance: hindranceOf(reached(context)),
    } satisfies Me)
  })

  routes.post('/api/sessions', shortBody, async (context) => {
    const connection = reached(context)
    const hindrance = hindranceOf(connection)
    if (hindrance) return notEncrypted(context, hindrance)
    const body = await readBody(context, signInSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
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
    if ('code' in answer)
      return answer.code === 'needed'
        ? problem(context, 401, 'Code needed', 'This account asks for a code besides the password.')
        : problem(
            context,
            401,
            'Code wrong',
            'The code is wrong, was used already or is too old. Type the one that is shown now, or a recovery code. After a few wrong ones the server waits before it judges the next.',
          )
    return signedIn(context, answer)
  })

  /** What the device had before is ended, never taken over. */
  const signedIn = async (context: Context, { token, account }: { token: string; account: Account }) => {
    const connection = reached(context)
    const before = sessionToken(context, connection)
    const earlier = before ? await access.findCaller(before) : null
    if (earlier) await access.signOut(earlier)
    giveSessionCookie(context, connection, token)
    context.header('cache-control', 'no-store')
    return context.json({ name: account.name }, 201)
  }

  routes.post('/api/sessions/passkey-options', shortBody, async (context) => {
    const at = passkeyPlaceOf(context, reached(context))
    if ('hindrance' in at) return noPasskeyHere(context, at.hindrance)
    context.header('cache-control', 'no-store')
    return context.json(await access.passkeys.beginSignIn(at.place))
  })

  routes.post('/api/sessions/by-passkey', shortBody, async (context) => {
    const at = passkeyPlaceOf(context, reached(context))
    if ('hindrance' in at) return noPasskeyHere(context, at.hindrance)
    const body = await readBody(context, passkeySignInSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { userHandle, ...signature } = body.value.response.response
    const answer = await access.passkeys.signIn(
      at.place,
      {
        ...body.value.response,
        clientExtensionResults: {},
        response: { ...signature, ...(userHandle && { userHandle }) },
      },
      context.req.header('user-agent') ?? '',
    )
    const who = 'wrong' in answer ? '?' : answer.account.signInName
    report(
      `Sign-in by ${who}, ${reached(context).address}: passkey ${'wrong' in answer ? 'refused' : 'let in'}`,
    )
    return 'wrong' in answer
      ? problem(
          context,
          401,
          'Not signed in',
          'This passkey is not known here, its account is disabled, or it answered something else than was asked just now. Try again, or sign in by name and password.',
        )
      : signedIn(context, answer)
  })

  routes.delete('/api/sessions/current', shortBody, async (context) => {
    const caller = context.get('caller')
    if (caller) await access.signOut(caller)
    takeSessionCookie(context, reached(context))
    takeLinkCookie(context, reached(context))
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
    if (hindrance) return notEncrypted(context, hindrance)
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

/** What accounts are for, as a page is told. */
const needOf: Readonly<Record<Standing, Me['accounts']>> = {
  'only-here': 'not-needed',
  visitors: 'to-change',
  'none-yet': 'none-yet',
  accounts: 'needed',
}

const notUnderstood = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not taken', 'Nothing was changed; what is wrong stands in issues.', issues)
