import { onCleanup } from 'solid-js'
import { waitingSentence } from '../panels/alerts/waiting-sentence.ts'
import { alertsWaiting, refreshAlerts } from '../state/alerts.ts'
import { isFrozen } from '../state/frozen.ts'
import { refreshStates } from '../state/open-site.ts'
import { watchPublishing } from '../state/publishing.ts'
import { siteDocument } from '../state/site-document.ts'
import { hearSiteEvents, type Said } from '../state/site-events.ts'
import { moveSiteNow } from '../state/site-now.ts'
import { announce } from '../ui/announce.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

/** While the line of events stands, and while it does not. */
const askEveryMs = { told: 120_000, untold: 60_000 } as const

/**
 * Keeps what is known of alerts fresh: told by the server as it happens, and asked every so often all the same, because
 * a channel falls silent without any event, and a line can be dead without a sign.
 */
export function watchAlerts(): void {
  const site = () => siteDocument()?.facts.id
  // Events may come faster than answers; what fails is told where it is shown, and asked again.
  const forNothing = () => undefined
  const askAlerts = newestNext(refreshAlerts, forNothing, forNothing)
  const askStates = newestNext(
    async (open: string) => {
      await refreshStates(open)
      await watchPublishing(open)
    },
    forNothing,
    forNothing,
  )
  const askAll = (open: string) => {
    moveSiteNow(Date.now())
    askAlerts(open)
    askStates(open)
  }
  let isTold = false
  const hear = (open: string, said: Said) => {
    if (said.kind !== 'event') isTold = said.kind === 'open'
    if (said.kind === 'event' && said.event.kind === 'alerts') askAlerts(open)
    // What was published is told again once it is evaluated, if that changed anything.
    else if (said.kind === 'event') askStates(open)
    // After a break, whatever happened meanwhile was not told.
    else if (said.kind !== 'lost') askAll(open)
  }
  // Frozen alerts are asked for once, and nothing that happens is told to a page that shows what was.
  if (isFrozen()) {
    sync(site, (open) => {
      if (open !== undefined) askAlerts(open)
    })
    return
  }
  sync(site, (open) => {
    if (open === undefined) return
    const end = new AbortController()
    askAlerts(open)
    hearSiteEvents(open, (said) => hear(open, said), end.signal)
    return () => end.abort()
  })
  const askAgain = () => {
    const open = site()
    if (open !== undefined) askAlerts(open)
  }
  let rounds = 0
  const timer = setInterval(() => {
    rounds += 1
    if (!isTold || (rounds * askEveryMs.untold) % askEveryMs.told === 0) askAgain()
  }, askEveryMs.untold)
  addEventListener('online', askAgain)
  onCleanup(() => {
    clearInterval(timer)
    removeEventListener('online', askAgain)
  })
  tellWaiting()
}

/** Said once for every change of the number, not with every answer. */
function tellWaiting(): void {
  let said = 0
  sync(alertsWaiting, (waiting) => {
    if (waiting === null || waiting === said) return
    announce(waitingSentence(waiting))
    said = waiting
  })
}
