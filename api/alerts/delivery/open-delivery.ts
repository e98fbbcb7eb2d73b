import { lookup } from 'node:dns/promises'
import { readOrMakeSealKey } from '../../access/seal-key.ts'
import type { Settings } from '../../settings.ts'
import type { Store } from '../../store/store.ts'
import { createDelivery, type Delivery } from './create-delivery.ts'
import { readOrMakePushKeys } from './push-keys.ts'

/** The delivery of the process, with the keys of its data folder. */
export async function openDelivery({
  store,
  settings,
  now,
}: {
  readonly store: Store
  readonly settings: Settings
  readonly now: () => number
}): Promise<Delivery> {
  return createDelivery({
    store,
    now,
    settings: settings.delivery,
    sealKey: await readOrMakeSealKey(settings.dataFolder),
    pushKeys: await readOrMakePushKeys(settings.dataFolder),
    origin: settings.address,
    resolve: (host) => lookup(host, { all: true }),
  })
}
