import { z } from 'zod'
import { alertKinds } from '#domain/alerts/alert-kinds.ts'
import { type SigningScheme, signingSchemes, type Webhook } from '#domain/alerts/webhook.ts'

/** `GET /api/sites/:site/webhooks`: where alerts of a site go, for its administrators. */
export interface AlertDelivery {
  /** From which mailbox mail is sent; null: the server was not told by which mail server. */
  readonly mail: { readonly from: string; readonly server: string; readonly isEncrypted: boolean } | null
  readonly webhooks: readonly WebhookEntry[]
}

export interface WebhookEntry extends Omit<Webhook, 'site'> {
  /** Null: its secret does not open any more, and nothing can be signed until it has a new one. */
  readonly scheme: SigningScheme | null
  readonly secretMadeAtEpochMs: number
  /** Until when messages are signed with the secret before too; null: there is none that still signs. */
  readonly earlierSecretEndsAtEpochMs: number | null
}

const scheme = z.enum(signingSchemes)

/** `POST /api/sites/:site/webhooks`. */
export const webhookDraftSchema = z.strictObject({
  name: z.string().max(200),
  url: z.string().max(4000),
  kinds: z.array(z.enum(alertKinds)).max(20),
  scheme,
})

/** `POST /api/sites/:site/webhooks/:webhook/secret`. */
export const secretReplacementSchema = z.strictObject({ scheme })

/** `PUT /api/sites/:site/webhooks/:webhook/standing`. */
export const webhookStandingSchema = z.strictObject({ disabled: z.boolean() })

/** `POST /api/sites/:site/mail/test`. */
export const mailTestSchema = z.strictObject({ to: z.string().min(1).max(300) })

/** The answer where a secret was made: what the receiver checks signatures with, told this once. */
export interface GivenSecret {
  readonly id: string
  readonly given: string
  /** Until when the secret before signs too; null: there was none. */
  readonly earlierEndsAtEpochMs: number | null
}

/** `POST …/test`: what became of each message that was sent. */
export interface TestedDelivery {
  readonly attempts: readonly {
    readonly outcome: 'delivered' | 'failed' | 'not-set-up'
    readonly detail: string
  }[]
}

/** `GET /api/me/devices`: one's own devices that are told. */
export interface OwnDevices {
  /** To which a device subscribes, base64url. */
  readonly publicKey: string
  /** Why no device can be told by this server; null: they can. */
  readonly hindrance: string | null
  readonly devices: readonly {
    readonly id: string
    readonly device: string
    readonly madeAtEpochMs: number
    /** The device that asks subscribed by the session that it has now. */
    readonly isOfThisSession: boolean
  }[]
}

/** `POST /api/me/devices`: what a browser gives for a subscription (W3C Push API). */
export const deviceSchema = z.strictObject({
  endpoint: z.string().max(2000),
  keys: z.strictObject({ p256dh: z.string().max(200), auth: z.string().max(100) }),
})
