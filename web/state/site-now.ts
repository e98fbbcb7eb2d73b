import { createSignal } from 'solid-js'
import { cutOffEpochMs } from './frozen.ts'
import { siteDocument } from './site-document.ts'

const [movedTo, setMovedTo] = createSignal(Date.now())

/** The present at the open site: that of frozen data is their cut-off, invented data has its own, else it is this device's clock. */
export const siteNowEpochMs = (): number =>
  cutOffEpochMs() ?? siteDocument()?.facts.presentEpochMs ?? Date.now()

/** The same as it was last moved to, every half minute: what grows old on the screen follows it. */
export const movingSiteNowEpochMs = (): number =>
  cutOffEpochMs() ?? siteDocument()?.facts.presentEpochMs ?? movedTo()

/** This device's clock, moved in the same way: how long ago something was heard, whatever the site's present is. */
export const movingDeviceNowEpochMs = movedTo

export function moveSiteNow(deviceNowEpochMs: number): void {
  setMovedTo(deviceNowEpochMs)
}
