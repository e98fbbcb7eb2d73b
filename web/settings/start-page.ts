import { getOwner, onCleanup, runWithOwner } from 'solid-js'
import { titleCount } from '../derived/alerts/title-count.ts'
import { describePoint, describeSymbol } from '../panels/describe-point.ts'
import { readAddress } from '../state/address.ts'
import { keepAddressBar, restoreAddress } from '../state/address-bar.ts'
import { alertsKnown, alertsWaiting } from '../state/alerts.ts'
import { noticeSilence } from '../state/connection.ts'
import { firstColour, reportFirstColour } from '../state/first-colour.ts'
import { isFrozen, readFromFrozen } from '../state/frozen.ts'
import { reportTrouble } from '../state/notices.ts'
import { isOnWall } from '../state/on-wall.ts'
import { openFrozen } from '../state/open-frozen.ts'
import { openSite, refreshStates } from '../state/open-site.ts'
import { knowOwnAccount } from '../state/own-account.ts'
import { selectedSymbol } from '../state/plan-symbols.ts'
import { playing } from '../state/playback.ts'
import { watchPublishing } from '../state/publishing.ts'
import { selectedInstrument, selectedPoint } from '../state/selection.ts'
import { setting } from '../state/setting.ts'
import { openSheet } from '../state/sheet.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { fetchSiteGrid } from '../state/site-grid.ts'
import { moveSiteNow } from '../state/site-now.ts'
import { palette, theme } from '../state/theme.ts'
import { announce } from '../ui/announce.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { kindNames } from '../ui/kind-names.ts'
import { cssVariables } from '../ui/palettes.ts'
import { sync } from '../ui/sync.ts'

const refreshEveryMs = 30_000

/** What the page does from its first moment: opens the site of its address, keeps address, theme and states. */
export function startPage(): void {
  knowOwnAccount()
  const wanted = readAddress(location.search)
  // Before anything of a site is asked: a meeting and its boards are opened by the wall, which knows their set.
  if (wanted.frozen !== null) readFromFrozen(wanted.frozen)
  if (!isOnWall()) {
    restoreAddress(wanted)
    if (setting() === 'walk' && isBare(location.search)) openSheet('field')
    if (wanted.frozen !== null) void openFrozen(wanted.site, wanted.frozen)
    else void openSite(wanted.site)
    keepAddressBar((site) => void openSite(site))
  }
  wearTheme()
  fetchTheRest()
  tellChanges()
  keepStatesFresh()
}

/** An address that shows nothing in particular, but perhaps one site: who walks the works begins with field work. */
const isBare = (search: string): boolean =>
  [...new URLSearchParams(search).keys()].every((name) => name === 'site')

/** Projections and engine come after the first colours, or after four seconds where there are none to come. */
function fetchTheRest(): void {
  const owner = getOwner()
  const timer = setTimeout(reportFirstColour, 4000)
  onCleanup(() => clearTimeout(timer))
  sync(firstColour, (drawn) => {
    if (!drawn) return
    Promise.all([
      fetchSiteGrid(),
      import('./start-analysis.ts'),
      import('./watch-alerts.ts'),
      import('../state/synchronise.ts'),
      import('./watch-for-loss.ts'),
      import('./watch-for-newer-version.ts'),
    ]).then(
      ([
        ,
        { startAnalysis },
        { watchAlerts },
        { keepSynchronised },
        { watchForLoss },
        { watchForNewerVersion },
      ]) =>
        runWithOwner(owner, () => {
          startAnalysis()
          watchAlerts()
          keepSynchronised()
          watchForLoss()
          watchForNewerVersion()
        }),
      (cause) => reportTrouble({ cause, retry: () => location.reload() }),
    )
  })
}

function wearTheme(): void {
  sync(palette, (colours) => {
    for (const [name, colour] of cssVariables(colours))
      document.documentElement.style.setProperty(name, colour)
  })
  sync(theme, (worn) => {
    document.documentElement.dataset.theme = worn
  })
  sync(setting, (chosen) => {
    document.documentElement.dataset.setting = isOnWall() ? 'meeting' : chosen
  })
  sync(
    () => ({ name: siteDocument()?.facts.name, count: titleCount(alertsKnown(), alertsWaiting()) }),
    ({ name, count }) => {
      document.title = name === undefined ? 'Stillground' : `${count}${name} · Stillground`
    },
  )
}

function tellChanges(): void {
  sync(
    () => {
      const instrument = selectedInstrument()
      if (!instrument) return null
      const point = selectedPoint()
      const words = point ? describePoint(point, clockEpochMs() ?? 0) : describeSymbol(selectedSymbol())
      return `${point?.id ?? instrument.id}, ${kindNames[instrument.kind]}. ${words}`
    },
    (sentence) => {
      if (sentence !== null && !playing()) announce(sentence)
    },
  )
  sync(
    () => ({ at: clockEpochMs(), running: playing(), zone: siteDocument()?.facts.timeZone }),
    ({ at, running, zone }) => {
      if (at !== null && zone !== undefined && !running) announce(`Clock at ${formatInstant(at, zone)}`)
    },
  )
}

/** Asks for newer states while the page is looked at, and at once when it is looked at again. */
function keepStatesFresh(): void {
  // What a meeting shows does not change any more.
  if (isFrozen()) return
  const ask = () => {
    moveSiteNow(Date.now())
    const site = siteDocument()?.facts.id
    if (site === undefined || document.hidden) return
    // A failure is told by the banner over the page, until an answer comes again.
    refreshStates(site).catch(() => undefined)
    watchPublishing(site).catch(() => undefined)
  }
  const timer = setInterval(() => {
    // A page that was not looked at has not asked: it is not the server that was silent.
    if (!document.hidden) noticeSilence(Date.now(), 2 * refreshEveryMs)
    ask()
  }, refreshEveryMs)
  document.addEventListener('visibilitychange', ask)
  globalThis.addEventListener('online', ask)
  globalThis.addEventListener('offline', ask)
  onCleanup(() => {
    clearInterval(timer)
    document.removeEventListener('visibilitychange', ask)
    globalThis.removeEventListener('online', ask)
    globalThis.removeEventListener('offline', ask)
  })
}
