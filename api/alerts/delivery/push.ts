import { createHash } from 'node:crypto'
import webPush from 'web-push'
import type { PushSubscription } from '#domain/alerts/push-subscription.ts'
import { thisServer } from '#domain/audit/audit-entry.ts'
import type { Store } from '../../store/store.ts'
import { type AlertMessage, type Attempt, type DeliveryWay, textOf, titleOf } from './delivery-way.ts'
import { type Guard, postGuarded } from './guarded-post.ts'
import type { PushKeys } from './push-keys.ts'

interface PushSending {
  readonly store: Pick<Store, 'listPushSubscriptions' | 'removePushSubscription'>
  readonly keys: PushKeys
  /** Whom a push service writes to where something is wrong: `mailto:` or https; null: nobody is named. */
  readonly contact: string | null
  readonly guard: Guard
}

const timeoutMs = 15_000
/** A device that is off hears of it within a day, or not this way. */
const keptSeconds = 86_400
const mostTextCharacters = 400

/** Tells people's own devices. Delivered means that the push service of the browser's maker took it. */
export function createPushWay({ store, keys, contact, guard }: PushSending): DeliveryWay {
  return {
    name: 'push',
    async send(message, { name, account }, signal) {
      if (contact === null) return [{ outcome: 'not-set-up', detail: noContact }]
      const devices = account === null ? [] : await store.listPushSubscriptions(account)
      if (devices.length === 0)
        return [{ outcome: 'not-set-up', detail: `${name} has no device that asked to be told.` }]
      return Promise.all(devices.map((device) => sendToDevice(message, device, signal)))
    },
  }

  async function sendToDevice(
    message: AlertMessage,
    { id, account, device, endpoint, p256dh, auth }: PushSubscription,
    signal: AbortSignal,
  ): Promise<Attempt> {
    const failed = (retry: boolean, detail: string): Attempt => ({
      outcome: 'failed',
      retry,
      detail: `${device}: ${detail}`,
    })
    let request: webPush.RequestDetails
    try {
      request = webPush.generateRequestDetails({ endpoint, keys: { p256dh, auth } }, pushBody(message), {
        vapidDetails: { subject: contact ?? '', ...keys },
        TTL: keptSeconds,
        urgency: message.exercise ? 'normal' : 'high',
        // One that waits at the service is replaced by its repetition.
        topic: createHash('sha256').update(message.id).digest('base64url').slice(0, 32),
      })
    } catch {
      return failed(false, 'what the device gave to be told by cannot be used. It has to ask anew.')
    }
    const answer = await postGuarded(
      {
        url: endpoint,
        headers: request.headers as Record<string, string | number>,
        body: request.body ?? Buffer.alloc(0),
        timeoutMs,
        signal,
      },
      guard,
    )
    if ('refused' in answer) return failed(false, answer.refused)
    if ('broken' in answer) return failed(true, answer.broken)
    const { status, askedWaitMs } = answer
    const service = new URL(endpoint).host
    if (status >= 200 && status < 300)
      return { outcome: 'delivered', detail: `${device}: the push service ${service} took it (${status}).` }
    if (status === 404 || status === 410) {
      const reason = `The push service answered ${status}: the device wants to be told no longer.`
      await store.removePushSubscription(account, id, { author: thisServer, reason, atEpochMs: guard.now() })
      return failed(false, `it wants to be told no longer (${status}), and was removed.`)
    }
    if (status >= 400 && status < 500 && status !== 408 && status !== 429)
      return failed(false, `the push service ${service} refused it (${status}).`)
    return {
      ...failed(true, `the push service ${service} did not take it now (${status}).`),
      ...(askedWaitMs !== null && { askedWaitMs }),
    }
  }
}

/** Why no device can be told. */
export const noContact =
  'Push services want to know whom to write to: set STILLGROUND_MAIL_FROM, or STILLGROUND_NAMES with STILLGROUND_BEHIND_TLS=yes.'

/** What the service worker of the page shows: title, a few lines, and where it leads. It stands on a locked screen too. */
export function pushBody(message: AlertMessage): string {
  const text = textOf(message)
  return JSON.stringify({
    title: titleOf(message).slice(0, 120),
    body: text.length > mostTextCharacters ? `${text.slice(0, mostTextCharacters)} …` : text,
    path: message.path,
    // A later message about the same alert takes the place of the earlier one.
    tag: `${message.site}/${message.alert}`,
    atEpochMs: message.atEpochMs,
  })
}
