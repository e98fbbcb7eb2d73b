import { createSignal } from 'solid-js'
import { siteDocument } from './site-document.ts'

const [movedTo, setMovedTo] = createSignal(Date.now())

/** The present at the open site: invented data has its own, else it is this device's clock. */
export const siteNowEpochMs = (): number => siteDocument()?.facts.presentEpochMs ?? Date.now()

/** The same as it was last moved to, every half minute: what grows old on the screen follows it. */
export const movingSiteNowEpochMs = (): number => siteDocument()?.facts.presentEpochMs ?? movedTo()

/** This device's clock, moved in the same way: how long ago something was heard, whatever the site's present is. */
export const movingDeviceNowEpochMs = movedTo

export function moveSiteNow(deviceNowEpochMs: number): void {
  setMovedTo(deviceNowEpochMs)
}
