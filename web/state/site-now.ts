import { siteDocument } from './site-document.ts'

/** The present at the open site: invented data has its own, else it is this device's clock. */
export const siteNowEpochMs = (): number => siteDocument()?.facts.presentEpochMs ?? Date.now()
