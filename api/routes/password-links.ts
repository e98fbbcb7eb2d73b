import { type Context, Hono } from 'hono'
import { type PasswordLinkOwner, passwordByLinkSchema, passwordLinkSchema } from '#contract/access-keys.ts'
import type { Access } from '../access/create-access.ts'
import { busy, hindranceOf, notEncrypted, tooOften } from './attempt-answers.ts'
import { connectionOf } from './connection-of.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'

/** Setting a password by the link that an administrator made for an account. */
export function passwordLinkRoutes({
  access,
  behindTls = false,
}: {
  readonly access: Access
  readonly behindTls?: boolean
}): Hono {
  const routes = new Hono()

  routes.post('/api/password-links/look', shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const body = await readBody(context, passwordLinkSchema)
    const account = body.ok ? await access.passwords.lookAtLink(body.value.token) : null
    return account
      ? context.json({ name: account.name, signInName: account.signInName } satisfies PasswordLinkOwner)
      : noSuchLink(context)
  })

  routes.post('/api/password-links/use', shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const hindrance = hindranceOf(connectionOf(context, behindTls))
    if (hindrance) return notEncrypted(context, hindrance)
    const body = await readBody(context, passwordByLinkSchema)
    const set = body.ok
      ? await access.passwords.useLink(body.value.token, body.value.password).catch(busy)
      : body
    if ('waitMs' in set) return tooOften(context, set.waitMs)
    return set.ok
      ? context.json(set.value)
      : problem(context, 400, 'Not taken', 'Nothing was changed; what is wrong stands in issues.', set.issues)
  })

  return routes
}

const noSuchLink = (context: Context): Response =>
  problem(
    context,
    404,
    'No such link',
    'This link was used already or has expired. Ask an administrator for another one.',
  )
