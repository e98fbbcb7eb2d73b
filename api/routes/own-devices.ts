import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import { deviceSchema, type OwnDevices, type TestedDelivery } from '#contract/alert-delivery.ts'
import type { Issue } from '#domain/outcome.ts'
import { judgeUrl } from '../alerts/delivery/address-guard.ts'
import type { Delivery } from '../alerts/delivery/create-delivery.ts'
import { testMessage } from '../alerts/delivery/test-message.ts'
import type { Store } from '../store/store.ts'
import { callerOf } from './attempt-answers.ts'
import { problem } from './problem.ts'
import { readBody, shortBody } from './read-body.ts'
import type { TestLimit } from './test-limit.ts'

const mostOfAccount = 20

/** One's own devices that are told of alerts while the page is closed too. */
export function ownDeviceRoutes({
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
  const path = '/api/me/devices'

  routes.get(path, async (context) => {
    const { account, session } = callerOf(context)
    context.header('cache-control', 'no-store')
    return context.json({
      publicKey: delivery.pushPublicKey,
      hindrance: delivery.pushHindrance,
      devices: (await store.listPushSubscriptions(account.id)).map((one) => ({
        id: one.id,
        device: one.device,
        madeAtEpochMs: one.madeAtEpochMs,
        isOfThisSession: one.session === session.id,
      })),
    } satisfies OwnDevices)
  })

  routes.post(path, shortBody, async (context) => {
    const { account, session } = callerOf(context)
    if (delivery.pushHindrance !== null)
      return problem(context, 409, 'Not set up', `No device can be told. ${delivery.pushHindrance}`)
    const body = await readBody(context, deviceSchema)
    if (!body.ok) return notTaken(context, body.issues)
    const { endpoint, keys } = body.value
    const judged = judgeUrl(endpoint, delivery.guard.allowedHosts)
    if (!judged.ok) return notTaken(context, judged.issues)
    if (!isKey(keys.p256dh, 65) || !isKey(keys.auth, 16))
      return notTaken(context, [
        { code: 'keys-expected', column: 'keys', message: 'The browser gave keys that cannot be used.' },
      ])
    const others = await store.listPushSubscriptions(account.id)
    if (others.length >= mostOfAccount && !others.some((one) => one.endpoint === endpoint))
      return notTaken(context, [
        { code: 'too-many', message: `At most ${mostOfAccount} devices are told. Remove one first.` },
      ])
    const id = randomUUID()
    await store.putPushSubscription(
      {
        id,
        account: account.id,
        session: session.id,
        device: session.device,
        endpoint,
        p256dh: keys.p256dh,
        auth: keys.auth,
        madeAtEpochMs: now(),
      },
      account.name,
    )
    return context.json({ id }, 201)
  })

  routes.post(`${path}/test`, shortBody, async (context) => {
    const { account } = callerOf(context)
    const tooMany = testLimit(context)
    if (tooMany) return tooMany
    const attempts = await delivery.push.send(
      testMessage('', '', 'Test of your devices', account.name, now()),
      { id: account.id, name: account.name, email: null, account: account.id, webhooks: [] },
      context.req.raw.signal,
    )
    return context.json({ attempts: [...attempts] } satisfies TestedDelivery)
  })

  routes.delete(`${path}/:device`, shortBody, async (context) => {
    const { account } = callerOf(context)
    const signature = { author: account.name, account: account.id, reason: '', atEpochMs: now() }
    return (await store.removePushSubscription(account.id, context.req.param('device'), signature))
      ? context.body(null, 204)
      : problem(context, 404, 'No such device', 'None of your devices is told under this name.')
  })

  return routes
}

const isKey = (text: string, bytes: number): boolean =>
  /^[\w-]+$/.test(text) && Buffer.from(text, 'base64url').length === bytes

const notTaken = (context: Context, issues: readonly Issue[]): Response =>
  problem(context, 400, 'Not taken', 'This device is not told; what is wrong stands in issues.', issues)
