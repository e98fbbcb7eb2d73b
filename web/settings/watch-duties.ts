import { onCleanup } from 'solid-js'
import { mayKnowDuties, refreshDuties } from '../state/duties.ts'
import { siteDocument } from '../state/site-document.ts'
import { sync } from '../ui/sync.ts'

const everyMs = 5 * 60_000

/** Keeps known who is told at the open site, so that a hole in the roster is told on every page. */
export function watchDuties(): void {
  const site = () => {
    const open = siteDocument()?.facts.id
    return open !== undefined && mayKnowDuties(open) ? open : null
  }
  const ask = (open: string | null) => {
    if (open !== null && !document.hidden) void refreshDuties(open)
  }
  sync(site, ask)
  const again = () => ask(site())
  const timer = setInterval(again, everyMs)
  document.addEventListener('visibilitychange', again)
  onCleanup(() => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', again)
  })
}
