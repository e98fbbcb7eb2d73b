import { unansweredSinceEpochMs } from './connection.ts'
import { isFrozen } from './frozen.ts'
import { isAtPresent } from './site-clock.ts'
import { stateDocument } from './site-document.ts'
import { movingSiteNowEpochMs } from './site-now.ts'

const oldAfterMs = 10 * 60_000

/** How old the latest states are against the site's present, milliseconds; 0 without states or ahead of it. */
export const statesAgeMs = (): number =>
  Math.max(0, movingSiteNowEpochMs() - (stateDocument()?.asOfEpochMs ?? Infinity))

/** Whether the latest states can no longer be taken for the present: the server is silent, or they are too old. Frozen ones stay what they are. */
export const areStatesOld = (): boolean =>
  stateDocument() !== null && !isFrozen() && (unansweredSinceEpochMs() !== null || statesAgeMs() > oldAfterMs)

/** While the clock is at the present and its states are old: their instant, since when nothing is known. Else null. */
export const lastKnownEpochMs = (): number | null =>
  isAtPresent() && areStatesOld() ? (stateDocument()?.asOfEpochMs ?? null) : null
