import { consolidationStart } from '../derived/ground/computed-settlement.ts'
import { changeFromEpochMs } from './change-since.ts'
import { clockEpochMs } from './site-clock.ts'
import { siteDocument } from './site-document.ts'

/** The instant from which settlement is computed from pressures: the chosen one of the change layer, else its usual start. */
export const computedSinceEpochMs = (): number =>
  changeFromEpochMs() ?? consolidationStart(siteDocument()?.stages ?? [], clockEpochMs() ?? 0)
