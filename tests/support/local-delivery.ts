import { randomBytes } from 'node:crypto'
import webPush from 'web-push'
import { readAllowedHosts } from '../../api/alerts/delivery/address-guard.ts'
import { createDelivery, type Delivery } from '../../api/alerts/delivery/create-delivery.ts'
import type { MailSettings } from '../../api/alerts/delivery/mail-settings.ts'
import type { Store } from '../../api/store/store.ts'

/** A delivery that finds every name on this machine, where the listed ones are allowed. */
export const localDelivery =
  (allowed: string, { mail = null }: { readonly mail?: MailSettings | null } = {}) =>
  (store: Store, now: () => number): Delivery => {
    const hosts = readAllowedHosts(allowed)
    if (!hosts.ok) throw new Error('not read')
    return createDelivery({
      store,
      now,
      settings: { mail, allowedHosts: hosts.value },
      sealKey: randomBytes(32),
      pushKeys: webPush.generateVAPIDKeys(),
      origin: 'https://works.example',
      resolve: async () => [{ address: '127.0.0.1' }],
    })
  }
