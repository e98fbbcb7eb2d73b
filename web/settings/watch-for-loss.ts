import { onCleanup } from 'solid-js'
import { unansweredSinceEpochMs } from '../state/connection.ts'
import { hasUnkeptFiles } from '../state/field-drafts.ts'
import { waitingCount } from '../state/field-work.ts'
import { synchronisingTrouble } from '../state/synchronise.ts'

/**
 * Asks before the page is closed while something could be lost by it: photos that were added and not kept yet, or
 * written work that exists on this device alone while the server does not answer.
 */
export function watchForLoss(): void {
  const ask = (event: BeforeUnloadEvent) => {
    const silent = !navigator.onLine || unansweredSinceEpochMs() !== null || synchronisingTrouble() !== null
    if (hasUnkeptFiles() || (silent && waitingCount() > 0)) event.preventDefault()
  }
  addEventListener('beforeunload', ask)
  onCleanup(() => removeEventListener('beforeunload', ask))
}
