import { Hono } from 'hono'
import { type IngestTokenEntry, type NewIngestToken, newIngestTokenSchema } from '#contract/access-keys.ts'
import type { Access } from '../access/create-access.ts'
import type { Store } from '../store/store.ts'
import { accountNames } from './account-names.ts'
import { callerOf } from './attempt-answers.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { actorOf } from './signed-by.ts'
import { siteMustExist } from './site-must-exist.ts'

/** Tokens with which programs add readings at a site: for its administrators. */
export function ingestTokenRoutes({
  access,
  store,
}: {
  readonly access: Access
  readonly store: Store
}): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/ingest-tokens'
  for (const guarded of [path, `${path}/*`]) routes.use(guarded, siteMustExist({ store }))

  routes.get(path, async (context) => {
    context.header('cache-control', 'no-store')
    const nameOf = await accountNames(store)
    const tokens = (await access.ingestTokens.list(context.req.param('site'))).map(
      ({ id, name, maker, createdAtEpochMs, lastUsedAtEpochMs, revokedAtEpochMs }): IngestTokenEntry => ({
        id,
        name,
        makerName: nameOf(maker),
        createdAtEpochMs,
        lastUsedAtEpochMs,
        revokedAtEpochMs,
      }),
    )
    return context.json({ tokens })
  })

  routes.post(path, shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const body = await readBody(context, newIngestTokenSchema)
    if (!body.ok)
      return problem(
        context,
        400,
        'Not understood',
        'Nothing was made; what is wrong stands in issues.',
        body.issues,
      )
    const { account } = callerOf(context)
    const made = await access.ingestTokens.make(context.req.param('site'), body.value.name, account.id)
    return context.json(made satisfies NewIngestToken, 201)
  })

  routes.delete(`${path}/:token`, shortBody, async (context) => {
    const { site, token } = context.req.param()
    return (await access.ingestTokens.revoke(site, token, actorOf(callerOf(context).account)))
      ? context.body(null, 204)
      : problem(context, 404, 'No such token', 'This site has no such ingest token.')
  })

  return routes
}
