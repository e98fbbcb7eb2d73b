import { Hono } from 'hono'
import {
  type NewShareLink,
  newShareLinkSchema,
  openLinkSchema,
  type ShareLinkEntry,
} from '#contract/access-keys.ts'
import type { Access } from '../access/create-access.ts'
import type { Store } from '../store/store.ts'
import { accountNames } from './account-names.ts'
import { callerOf, hindranceOf, notEncrypted } from './attempt-answers.ts'
import { connectionOf } from './connection-of.ts'
import { giveLinkCookie } from './link-cookie.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { actorOf } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

interface Sharing {
  readonly access: Access
  readonly store: Store
  readonly behindTls?: boolean
}

/** Links by which others read a site: made by those who change its records, opened by whoever has one. */
export function shareLinkRoutes({ access, store, behindTls = false }: Sharing): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/share-links'
  for (const guarded of [path, `${path}/*`]) routes.use(guarded, siteMustExist({ store }))

  routes.get(path, async (context) => {
    context.header('cache-control', 'no-store')
    const nameOf = await accountNames(store)
    const links = (await access.shareLinks.list(context.req.param('site'))).map(
      ({
        id,
        maker,
        createdAtEpochMs,
        expiresAtEpochMs,
        lastUsedAtEpochMs,
        revokedAtEpochMs,
      }): ShareLinkEntry => ({
        id,
        makerName: nameOf(maker),
        createdAtEpochMs,
        expiresAtEpochMs,
        lastUsedAtEpochMs,
        revokedAtEpochMs,
      }),
    )
    return context.json({ links })
  })

  routes.post(path, shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const body = await readBody(context, newShareLinkSchema)
    if (!body.ok)
      return problem(
        context,
        400,
        'Not understood',
        'Nothing was made; what is wrong stands in issues.',
        body.issues,
      )
    const { token, expiresAtEpochMs } = await access.shareLinks.make(
      context.req.param('site'),
      callerOf(context).account.id,
      body.value.lastsHours * 3_600_000,
    )
    return context.json({ fragment: `#link=${token}`, expiresAtEpochMs } satisfies NewShareLink, 201)
  })

  routes.delete(`${path}/:link`, shortBody, async (context) => {
    const { site, link } = context.req.param()
    return (await access.shareLinks.revoke(site, link, actorOf(callerOf(context).account)))
      ? context.body(null, 204)
      : problem(context, 404, 'No such link', 'This site has no such link.')
  })

  routes.post('/api/share-links/open', shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const connection = connectionOf(context, behindTls)
    const hindrance = hindranceOf(connection)
    if (hindrance) return notEncrypted(context, hindrance)
    const body = await readBody(context, openLinkSchema)
    const open = body.ok ? await access.shareLinks.find(body.value.token) : null
    if (!body.ok || !open)
      return problem(
        context,
        404,
        'No such link',
        'This link has expired or was revoked. Ask whoever gave it to you for another one.',
      )
    giveLinkCookie(
      context,
      connection,
      body.value.token,
      open.link.expiresAtEpochMs - open.link.createdAtEpochMs,
    )
    return context.json({ site: open.link.site })
  })

  return routes
}
