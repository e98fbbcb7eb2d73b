import { onCleanup } from 'solid-js'
import type { NetworkRequest } from '#domain/radio/network-study.ts'
import { openDerivation } from '../derived/open-derivation.ts'
import { obstructionOf } from '../derived/radio/planned-obstruction.ts'
import { radioSiteOf } from '../derived/radio/radio-site-of.ts'
import { sentenceOf } from '../state/ask-server.ts'
import { networkPage } from '../state/network-page.ts'
import { reportNetworkTrouble, showNetworkStudy } from '../state/network-study.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import {
  plannedGateway,
  plannedObstruction,
  radioTerms,
  shownFactor,
  shownGateway,
  wantedShare,
} from '../state/radio-plan.ts'
import { sheetTab } from '../state/sheet.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { siteGrid } from '../state/site-grid.ts'
import { newestNext } from '../ui/newest-next.ts'
import { sync } from '../ui/sync.ts'

const pagesThatAsk: ReadonlySet<string> = new Set(['links', 'obstruction', 'gateways'])

/** Keeps what the coverage tests say of the network in step with clock and plans, while a page or the plan shows it. */
export function startNetworkStudy(): void {
  const derivation = openDerivation()
  let wanted: NetworkRequest | null = null
  const ask = newestNext(
    (request: NetworkRequest) => derivation.network(request),
    (outcome) => {
      if (!wanted) return
      if (outcome.ok) showNetworkStudy(outcome.value)
      else reportNetworkTrouble(outcome.issues.map(({ message }) => message).join(' '))
    },
    (cause) => reportNetworkTrouble(`Radio links could not be worked out: ${sentenceOf(cause)}`),
  )
  sync(
    () => {
      const [document, grid, at] = [siteDocument(), siteGrid(), clockEpochMs()]
      const asking = sheetTab() === 'network' && pagesThatAsk.has(networkPage())
      const onPlan = isLayerShown('delivery')
      if (!document || !grid || at === null || !(asking || onPlan)) return null
      return {
        site: radioSiteOf(document, grid, radioTerms()),
        atEpochMs: at,
        wantedShare: wantedShare(),
        planned: { obstruction: obstructionOf(plannedObstruction()), gateway: plannedGateway() },
        grid: onPlan ? { spreadingFactor: shownFactor(), gateway: shownGateway() } : null,
        checked: asking && networkPage() === 'links',
      }
    },
    (request) => {
      wanted = request
      if (request) ask(request)
      else showNetworkStudy(null)
    },
  )
  onCleanup(derivation.close)
}
