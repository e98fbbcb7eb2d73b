import { type Context, Hono } from 'hono'
import {
  type AlertDelivery,
  type GivenSecret,
  mailTestSchema,
  secretReplacementSchema,
  type TestedDelivery,
  type WebhookEntry,
  webhookDraftSchema,
  webhookStandingSchema,
} from '#contract/alert-delivery.ts'
import type { Issue } from '#domain/outcome.ts'
import type { Delivery } from '../alerts/delivery/create-delivery.ts'
import { testMessage } from '../alerts/delivery/test-message.ts'
import type { Signature, Store } from '../store/store.ts'
import { callerOf } from './attempt-answers.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import { siteMustExist } from './site-must-exist.ts'
import type { TestLimit } from './test-limit.ts'

/** Where alerts of a site go: for its administrators. */
export function webhookRoutes({
  store,
  delivery,
  now,
  testLimit,
}: {
  readonly store: Store
  readonly delivery: Delivery
  readonly now: () => number
  readonly testLimit: TestLimit
}): Hono {
  const routes = new Hono()
  const path = '/api/sites/:site/webhooks'
  const one = `${path}/:webhook`
  for (const guarded of [path, `${path}/*`, '/api/sites/:site/mail/*'])
    routes.use(guarded, siteMustExist({ store }))
  const { webhooks, mail } = delivery

  routes.get(path, async (context) => {
    const site = context.req.param('site')
    const listed = await store.listWebhooks(site)
    context.header('cache-control', 'no-store')
    return context.json({
      mail,
      webhooks: (await Promise.all(listed.map(({ id }) => store.findWebhook(site, id)))).flatMap((found) =>
        found ? [webhooks.entryOf(found)] : [],
      ) satisfies WebhookEntry[],
    } satisfies AlertDelivery)
  })

  routes.post(path, shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const body = await readBody(context, webhookDraftSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const draft = { ...body.value, site: context.req.param('site') }
    const made = await webhooks.make(draft, signatureOf(context, ''))
    if (!made.ok) return notUnderstood(context, made.issues)
    return context.json({ ...made.value, earlierEndsAtEpochMs: null } satisfies GivenSecret, 201)
  })

  routes.post(`${one}/secret`, shortBody, async (context) => {
    context.header('cache-control', 'no-store')
    const body = await readBody(context, secretReplacementSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { site, webhook } = context.req.param()
    const replaced = await webhooks.replaceSecret(site, webhook, body.value.scheme, signatureOf(context, ''))
    return replaced
      ? context.json({ ...replaced, id: webhook } satisfies GivenSecret, 201)
      : noWebhook(context)
  })

  routes.post(`${one}/test`, shortBody, async (context) => {
    const tooMany = testLimit(context)
    if (tooMany) return tooMany
    const message = await messageOf(context, 'Test of this webhook')
    const attempt = await webhooks.test(message, context.req.param('webhook'), context.req.raw.signal)
    return attempt ? context.json({ attempts: [attempt] } satisfies TestedDelivery) : noWebhook(context)
  })

  routes.post('/api/sites/:site/mail/test', shortBody, async (context) => {
    const body = await readBody(context, mailTestSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const tooMany = testLimit(context)
    if (tooMany) return tooMany
    const message = await messageOf(context, 'Test of the mail')
    const to = { id: 'test', name: '', email: body.value.to.trim(), account: null, webhooks: [] }
    const attempts = await delivery.mailWay.send(message, to, context.req.raw.signal)
    return context.json({ attempts: [...attempts] } satisfies TestedDelivery)
  })

  routes.put(`${one}/standing`, shortBody, async (context) => {
    const body = await readBody(context, webhookStandingSchema)
    if (!body.ok) return notUnderstood(context, body.issues)
    const { site, webhook } = context.req.param()
    const { disabled } = body.value
    const reason = disabled ? `Disabled by ${callerOf(context).account.name}.` : ''
    return (await store.standWebhook(site, webhook, disabled, signatureOf(context, reason)))
      ? context.body(null, 204)
      : noWebhook(context)
  })

  routes.delete(one, shortBody, async (context) => {
    const { site, webhook } = context.req.param()
    return (await store.removeWebhook(site, webhook, signatureOf(context, '')))
      ? context.body(null, 204)
      : noWebhook(context)
  })

  async function messageOf(context: Context, subject: string) {
    const site = context.req.param('site') ?? ''
    const siteName = (await store.getSite(site))?.facts.name ?? site
    return testMessage(site, siteName, subject, callerOf(context).account.name, now())
  }

  function signatureOf(context: Context, reason: string): Signature {
    const { id, name } = callerOf(context).account
    return { author: name, account: id, reason, atEpochMs: now() }
  }

  return routes
}

const noWebhook = (context: Context): Response =>
  problem(context, 404, 'No such webhook', 'This site has no such webhook; it may have been removed.')

const notUnderstood = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not understood', 'Nothing was changed; what is wrong stands in issues.', issues)
