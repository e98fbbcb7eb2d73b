import { thisServer } from '#domain/audit/audit-entry.ts'
import { openSealed } from '../../access/sealed-secret.ts'
import type { Store } from '../../store/store.ts'
import { type AlertMessage, type Attempt, type DeliveryWay, textOf, titleOf } from './delivery-way.ts'
import { type Guard, postGuarded } from './guarded-post.ts'
import { headerId } from './message-id.ts'
import { signaturesOf } from './webhook-signature.ts'

/** What a receiver has to answer within: the scheme recommends 15 to 30 s. */
const timeoutMs = 15_000
/** The scheme recommends less than 20 kB. */
const mostBodyBytes = 20_000
const mostTextCharacters = 4000

export interface WebhookSending {
  readonly store: Pick<Store, 'findWebhook' | 'standWebhook'>
  readonly sealKey: Uint8Array
  readonly guard: Guard
  readonly now: () => number
  /** Scheme and host by which people open the page; null: not known. */
  readonly origin: string | null
}

/** Tells programs elsewhere, each by one signed POST. Redirects are never followed. */
export function createWebhookWay(sending: WebhookSending): DeliveryWay {
  return {
    name: 'webhook',
    async send(message, { webhooks }, signal) {
      return Promise.all(webhooks.map((id) => sendToOne(message, id, signal, sending)))
    },
  }
}

/** Name by which the secrets of a webhook are sealed. */
export const webhookSealName = (site: string, id: string): string => `webhook ${site} ${id}`

async function sendToOne(
  message: AlertMessage,
  id: string,
  signal: AbortSignal,
  sending: WebhookSending,
): Promise<Attempt> {
  const found = await sending.store.findWebhook(message.site, id)
  if (!found) return { outcome: 'not-set-up', detail: `There is no webhook ${id} at this site any more.` }
  const { name, kinds, disabledAtEpochMs, disabledWhy } = found.webhook
  if (disabledAtEpochMs !== null)
    return { outcome: 'failed', retry: false, detail: `${name} is disabled: ${disabledWhy}` }
  if (!kinds.includes(message.kind))
    return { outcome: 'not-set-up', detail: `${name} does not take messages of the kind ${message.kind}.` }
  return postToWebhook(message, found, signal, sending)
}

export type FoundWebhook = NonNullable<Awaited<ReturnType<Store['findWebhook']>>>

/** The secrets that sign at an instant, newest first; null in place of one that the key of this data folder does not open. */
export const openSecrets = (
  { webhook: { site, id }, secrets }: FoundWebhook,
  sealKey: Uint8Array,
  nowEpochMs: number,
) =>
  secrets
    .filter(({ endsAtEpochMs }) => endsAtEpochMs === null || endsAtEpochMs > nowEpochMs)
    .map(({ sealed, madeAtEpochMs, endsAtEpochMs }) => ({
      madeAtEpochMs,
      endsAtEpochMs,
      secret: openedOrNull(sealKey, sealed, webhookSealName(site, id)),
    }))

function openedOrNull(sealKey: Uint8Array, sealed: string, boundTo: string): string | null {
  try {
    return openSealed(sealKey, sealed, boundTo).toString('utf8')
  } catch {
    return null
  }
}

/** Sends to a webhook whatever kinds it takes; an answer 410 disables it. */
export async function postToWebhook(
  message: AlertMessage,
  found: FoundWebhook,
  signal: AbortSignal,
  { store, sealKey, guard, now, origin }: WebhookSending,
): Promise<Attempt> {
  const { site, id: webhookId, name, url } = found.webhook
  const keys = openSecrets(found, sealKey, now()).flatMap(({ secret }) => secret ?? [])
  if (keys.length === 0)
    return {
      outcome: 'failed',
      retry: false,
      detail: `${name}: its secret does not open with the key of this data folder, so nothing could be signed. Give it a new secret.`,
    }
  const body = webhookBody(message, origin)
  // No full stop may stand in it: it would divide what is signed at another place.
  const id = headerId(message.id)
  const atEpochSeconds = Math.floor(now() / 1000)
  const answer = await postGuarded(
    {
      url,
      body,
      timeoutMs,
      signal,
      headers: {
        'content-type': 'application/json',
        'user-agent': 'Stillground',
        'webhook-id': id,
        'webhook-timestamp': atEpochSeconds,
        'webhook-signature': signaturesOf(keys, id, atEpochSeconds, body),
      },
    },
    guard,
  )
  if ('refused' in answer) return { outcome: 'failed', retry: false, detail: `${name}: ${answer.refused}` }
  if ('broken' in answer) return { outcome: 'failed', retry: true, detail: `${name}: ${answer.broken}` }
  const { status, askedWaitMs } = answer
  if (status >= 200 && status < 300)
    return { outcome: 'delivered', detail: `${name}: the receiver took it (${status}).` }
  if (status === 410) {
    const why = 'The receiver answered 410: it wants nothing more from here.'
    await store.standWebhook(site, webhookId, true, { author: thisServer, reason: why, atEpochMs: now() })
    return {
      outcome: 'failed',
      retry: false,
      detail: `${name}: ${why} It is disabled until someone enables it.`,
    }
  }
  return {
    outcome: 'failed',
    retry: true,
    detail: `${name}: ${answerWords(status)}`,
    ...(askedWaitMs !== null && { askedWaitMs }),
  }
}

const answerWords = (status: number): string =>
  status >= 300 && status < 400
    ? `the receiver answered with a redirect (${status}), which is not followed. Give the address to which it leads.`
    : `the receiver answered ${status}.`

/** The body: small, and the type of an exercise is another one, so that no program takes it for the thing itself. */
export function webhookBody(message: AlertMessage, origin: string | null): string {
  const { exercise, late, kind, alert, site, siteName, text, path, facts, atEpochMs } = message
  const whole = (carried: AlertMessage['facts'], shortened: boolean) =>
    JSON.stringify({
      exercise,
      type: `${exercise ? 'exercise' : 'alert'}.${kind}`,
      timestamp: new Date(atEpochMs).toISOString(),
      data: {
        alert,
        site,
        siteName,
        late,
        title: titleOf(message).slice(0, 500),
        text: textOf(message).slice(0, mostTextCharacters),
        path,
        ...(origin !== null && { url: origin + path }),
        facts: carried,
        ...((shortened || text.length > mostTextCharacters) && { shortened: true }),
      },
    })
  const body = whole(facts, false)
  return Buffer.byteLength(body) <= mostBodyBytes ? body : whole({}, true)
}
