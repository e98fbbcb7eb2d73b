import { randomBytes } from 'node:crypto'
import { lookup } from 'node:dns/promises'
import webPush from 'web-push'
import type { Store } from '../../store/store.ts'
import { createDelivery, type Delivery } from './create-delivery.ts'
import { noDelivery } from './delivery-settings.ts'

/** A delivery without mail whose keys end with the process. */
export const ephemeralDelivery = ({
  store,
  now,
}: {
  readonly store: Store
  readonly now: () => number
}): Delivery =>
  createDelivery({
    store,
    now,
    settings: noDelivery,
    sealKey: randomBytes(32),
    pushKeys: webPush.generateVAPIDKeys(),
    origin: null,
    resolve: (host) => lookup(host, { all: true }),
  })
