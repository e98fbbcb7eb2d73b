import type { Store } from '../../store/store.ts'
import type { ResolveHost } from './address-guard.ts'
import type { DeliverySettings } from './delivery-settings.ts'
import type { DeliveryWay } from './delivery-way.ts'
import type { Guard } from './guarded-post.ts'
import { createMailWay } from './mail.ts'
import { createPushWay, noContact } from './push.ts'
import type { PushKeys } from './push-keys.ts'
import { createWebhookWay } from './webhook.ts'
import { createWebhooks, type Webhooks } from './webhooks.ts'

export interface DeliveryDependencies {
  readonly store: Store
  readonly now: () => number
  readonly settings: DeliverySettings
  /** 32 bytes under which the secrets of webhooks are sealed. */
  readonly sealKey: Uint8Array
  readonly pushKeys: PushKeys
  /** Scheme and host by which people open the page from elsewhere; null: not known. */
  readonly origin: string | null
  readonly resolve: ResolveHost
}

/** How alerts leave this server, and what is to be set up for it. */
export interface Delivery {
  readonly ways: readonly DeliveryWay[]
  readonly mailWay: DeliveryWay
  readonly push: DeliveryWay
  readonly webhooks: Webhooks
  readonly guard: Guard
  /** Devices subscribe to it. */
  readonly pushPublicKey: string
  /** Why no device can be told; null: they can. */
  readonly pushHindrance: string | null
  /** From which mailbox, and by which server, mail is sent; null: it is not set up. */
  readonly mail: { readonly from: string; readonly server: string; readonly isEncrypted: boolean } | null
}

export function createDelivery(dependencies: DeliveryDependencies): Delivery {
  const { store, now, settings, pushKeys, origin, resolve } = dependencies
  const guard: Guard = { allowedHosts: settings.allowedHosts, resolve, now }
  const { mail } = settings
  // RFC 8292, 2.1: a mailbox or an https address.
  const contact = mail ? `mailto:${mail.from.address}` : origin?.startsWith('https:') ? origin : null
  const push = createPushWay({ store, keys: pushKeys, contact, guard })
  const sending = { ...dependencies, guard }
  const mailWay = createMailWay({ settings: mail, origin })
  return {
    ways: [mailWay, createWebhookWay(sending), push],
    mailWay,
    push,
    webhooks: createWebhooks(sending),
    guard,
    pushPublicKey: pushKeys.publicKey,
    pushHindrance: contact === null ? noContact : null,
    mail: mail && {
      from: mail.from.address,
      server: mail.host,
      isEncrypted: mail.isEncryptedAtOnce || mail.needsTls,
    },
  }
}
