import { onCleanup } from 'solid-js'
import { slicesRevision } from '../state/analysis.ts'
import { contradictedVerdicts, refreshContradicted } from '../state/contradicted-verdicts.ts'
import { isFrozen } from '../state/frozen.ts'
import { hindranceTo } from '../state/permitted.ts'
import { siteDocument } from '../state/site-document.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

/** The server looks soon after it published, and rests between two looks. */
const askEveryMs = { behind: 20_000, upToDate: 5 * 60_000 } as const

/** Keeps what is known of contradicted verdicts fresh, for whoever may read all; of frozen data nothing is told. */
export function watchContradicted(): void {
  if (isFrozen()) return
  let askedAtMs = 0
  const ask = newestNext(
    (site: string) => {
      askedAtMs = performance.now()
      return refreshContradicted(site)
    },
    () => undefined,
    () => undefined,
  )
  const site = () => (hindranceTo('read-all') === null ? siteDocument()?.facts.id : undefined)
  sync(
    () => ({ site: site(), revision: slicesRevision(), records: siteDocument() }),
    ({ site }) => {
      if (site !== undefined) ask(site)
    },
  )
  const timer = setInterval(() => {
    const open = site()
    const waitMs = contradictedVerdicts()?.behind === false ? askEveryMs.upToDate : askEveryMs.behind
    if (open !== undefined && !document.hidden && performance.now() - askedAtMs >= waitMs) ask(open)
  }, 5000)
  onCleanup(() => clearInterval(timer))
}
