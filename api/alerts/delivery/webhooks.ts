import { randomUUID } from 'node:crypto'
import type { WebhookEntry } from '#contract/alert-delivery.ts'
import { alertKinds } from '#domain/alerts/alert-kinds.ts'
import { earlierSecretLastsMs, type SigningScheme, type Webhook } from '#domain/alerts/webhook.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { sealSecret } from '../../access/sealed-secret.ts'
import type { Signature, Store } from '../../store/store.ts'
import { judgeResolved, judgeUrl } from './address-guard.ts'
import type { AlertMessage, Attempt } from './delivery-way.ts'
import {
  type FoundWebhook,
  openSecrets,
  postToWebhook,
  type WebhookSending,
  webhookSealName,
} from './webhook.ts'
import { makeWebhookSecret, schemeOf } from './webhook-signature.ts'

type WebhookDraft = Pick<Webhook, 'site' | 'name' | 'url' | 'kinds'> & { readonly scheme: SigningScheme }

/** Making and keeping webhooks; what the receiver checks signatures with is told once. */
export interface Webhooks {
  make(
    draft: WebhookDraft,
    signature: Signature,
  ): Promise<Outcome<{ readonly id: string; readonly given: string }>>
  /** Null: there is no such webhook. */
  replaceSecret(
    site: string,
    id: string,
    scheme: SigningScheme,
    signature: Signature,
  ): Promise<{ readonly given: string; readonly earlierEndsAtEpochMs: number } | null>
  /** What an administrator is shown of it; its secrets only by how they sign and until when. */
  entryOf(found: FoundWebhook): WebhookEntry
  /** Sends a message whatever kinds it takes and whether or not it is disabled. Null: there is no such webhook. */
  test(message: AlertMessage, id: string, signal: AbortSignal): Promise<Attempt | null>
}

const mostOfSite = 50

export function createWebhooks(
  sending: WebhookSending & { readonly store: Store; readonly sealKey: Uint8Array },
): Webhooks {
  const { store, sealKey, guard, now } = sending
  const seal = (site: string, id: string, secret: string) =>
    sealSecret(sealKey, Buffer.from(secret, 'utf8'), webhookSealName(site, id))

  return {
    async make({ site, name: typed, url, kinds, scheme }, signature) {
      const name = typed.normalize('NFC').trim().replaceAll(/\s+/g, ' ')
      const others = await store.listWebhooks(site)
      const issues: Issue[] = []
      if (name.length < 2 || name.length > 100 || /\p{C}/u.test(name))
        issues.push({
          code: 'name-expected',
          column: 'name',
          message: 'Give a name of 2 to 100 characters by which people know the receiver.',
        })
      else if (others.some((one) => one.name.toLowerCase() === name.toLowerCase()))
        issues.push({
          code: 'name-taken',
          column: 'name',
          value: name,
          message: 'Another webhook of this site has this name. Choose another one.',
        })
      if (kinds.length === 0)
        issues.push({
          code: 'kinds-expected',
          column: 'kinds',
          message: 'Choose at least one kind of message.',
        })
      if (others.length >= mostOfSite)
        issues.push({
          code: 'too-many',
          message: `A site has at most ${mostOfSite} webhooks. Remove one first.`,
        })
      issues.push(...(await faultsOf(url)))
      if (issues.length > 0) return reject(...issues)
      const id = randomUUID()
      const { secret, given } = makeWebhookSecret(scheme)
      const chosen = alertKinds.filter((kind) => kinds.includes(kind))
      await store.addWebhook({ site, id, name, url, kinds: chosen }, seal(site, id, secret), signature)
      return accept({ id, given })
    },

    async replaceSecret(site, id, scheme, signature) {
      const { secret, given } = makeWebhookSecret(scheme)
      const earlierEndsAtEpochMs = signature.atEpochMs + earlierSecretLastsMs
      const replacement = { sealed: seal(site, id, secret), earlierEndsAtEpochMs }
      const isDone = await store.replaceWebhookSecret(site, id, replacement, signature)
      return isDone ? { given, earlierEndsAtEpochMs } : null
    },

    entryOf(found) {
      const { site: _site, ...webhook } = found.webhook
      const [newest, earlier] = openSecrets(found, sealKey, now())
      return {
        ...webhook,
        scheme: newest?.secret == null ? null : schemeOf(newest.secret),
        secretMadeAtEpochMs: newest?.madeAtEpochMs ?? webhook.madeAtEpochMs,
        earlierSecretEndsAtEpochMs: earlier?.endsAtEpochMs ?? null,
      }
    },

    async test(message, id, signal) {
      const found = await store.findWebhook(message.site, id)
      return found && postToWebhook(message, found, signal, sending)
    },
  }

  /** A name that cannot be looked up now may be later; one that leads to a private address is told at once. */
  async function faultsOf(url: string): Promise<readonly Issue[]> {
    const judged = judgeUrl(url, guard.allowedHosts)
    if (!judged.ok) return judged.issues
    const patience = new Promise<null>((resolve) => setTimeout(() => resolve(null), 3000).unref())
    const resolved = await Promise.race([
      judgeResolved(judged.value, guard.resolve).catch(() => null),
      patience,
    ])
    return resolved === null || resolved.ok
      ? []
      : resolved.issues.filter(({ code }) => code === 'address-not-public')
  }
}
