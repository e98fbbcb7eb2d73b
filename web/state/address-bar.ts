import { onCleanup } from 'solid-js'
import { sync } from '../ui/sync.ts'
import { readAddress, writeAddress } from './address.ts'
import type { AddressState } from './address-state.ts'
import { isStep } from './address-step.ts'
import { alertsPage, openAlert, openAlertsPage, openedAlert } from './alerts-page.ts'
import { auditFilter, narrowAudit } from './audit-filter.ts'
import { changeFromEpochMs, countChangeFrom } from './change-since.ts'
import { compared, restoreCompared } from './compared.ts'
import { chooseCounting, counting } from './counted.ts'
import { fieldPage, openFieldPage } from './field-page.ts'
import { filters, restoreFilters } from './filters.ts'
import { frozenSetId } from './frozen.ts'
import { chooseAnalysis, groundAnalysis } from './ground-analysis.ts'
import { lookAt, mapView } from './map-view.ts'
import { openedMeeting, openMeeting } from './meeting-work.ts'
import { networkPage, openNetworkPage } from './network-page.ts'
import { pairBy, pairedHow } from './paired-how.ts'
import { patch, takePatch } from './patch.ts'
import { restoreLayers, shownLayers } from './plan-layers.ts'
import { playing } from './playback.ts'
import { profileDates, restoreProfileDates } from './profile-dates.ts'
import { lookAlong, profileAxis, showStress, stressShown } from './profile-look.ts'
import { openReviewPage, reviewPage } from './review-page.ts'
import { askInReview } from './review-question.ts'
import { chooseReviewDays, chosenReviewDays, questionOfReviewed } from './reviewed-series.ts'
import { drawSection, sectionLine } from './section-line.ts'
import { restoreSelection, selection } from './selection.ts'
import { openSheet, sheetTab } from './sheet.ts'
import { clockSetting, restoreClock } from './site-clock.ts'
import { siteDocument } from './site-document.ts'
import {
  chooseSurfaceAspect,
  chooseSurfaceMethod,
  chooseSurfaceStratum,
  surfaceAspect,
  surfaceMethod,
  surfaceStratum,
} from './surface-choice.ts'
import { whatIfText, writeWhatIf } from './what-if.ts'

/** All state that the address carries, as it is now. */
export function currentAddress(): AddressState {
  return {
    site: siteDocument()?.facts.id ?? null,
    frozen: frozenSetId(),
    clock: clockSetting(),
    counting: counting(),
    selection: selection(),
    filters: filters(),
    layers: shownLayers(),
    changeFromEpochMs: changeFromEpochMs(),
    surfaceMethod: surfaceMethod(),
    surfaceAspect: surfaceAspect(),
    surfaceStratum: surfaceStratum(),
    view: mapView(),
    tab: sheetTab(),
    analysis: groundAnalysis(),
    fieldPage: fieldPage(),
    networkPage: networkPage(),
    reviewPage: reviewPage(),
    reviewed: questionOfReviewed(),
    reviewDays: chosenReviewDays(),
    compared: compared(),
    pairedHow: pairedHow(),
    patch: patch(),
    audit: auditFilter(),
    alertsPage: alertsPage(),
    openedAlert: openedAlert(),
    openedMeeting: openedMeeting(),
    sectionLine: sectionLine(),
    profileDates: profileDates(),
    profileAxis: profileAxis(),
    stressShown: stressShown(),
    whatIf: whatIfText(),
  }
}

/** Puts all state but the site as an address says. */
export function restoreAddress(state: AddressState): void {
  restoreClock(state.clock)
  chooseCounting(state.counting)
  restoreSelection(state.selection)
  restoreFilters(state.filters)
  restoreLayers(state.layers)
  countChangeFrom(state.changeFromEpochMs)
  chooseSurfaceMethod(state.surfaceMethod)
  chooseSurfaceAspect(state.surfaceAspect)
  chooseSurfaceStratum(state.surfaceStratum)
  lookAt(state.view)
  openSheet(state.tab)
  chooseAnalysis(state.analysis)
  openFieldPage(state.fieldPage)
  openNetworkPage(state.networkPage)
  openReviewPage(state.reviewPage)
  askInReview(state.reviewed)
  chooseReviewDays(state.reviewDays)
  restoreCompared(state.compared)
  pairBy(state.pairedHow)
  takePatch(state.patch)
  narrowAudit(state.audit)
  openAlertsPage(state.alertsPage)
  openAlert(state.openedAlert)
  openMeeting(state.openedMeeting)
  drawSection(state.sectionLine)
  restoreProfileDates(state.profileDates)
  lookAlong(state.profileAxis)
  showStress(state.stressShown)
  writeWhatIf(state.whatIf)
}

/**
 * Keeps address bar and state alike, both ways. Steps (selection, tab, line, layers) make an entry in the
 * browser's history, scrubbing and panning do not. Browsers refuse too many changes a second, so they are
 * gathered; a running clock is written when it stops.
 */
export function keepAddressBar(openSite: (site: string) => void): void {
  let written = readAddress(location.search)
  let timer: ReturnType<typeof setTimeout> | undefined
  const write = () => {
    const next = currentAddress()
    if (next.site === null) return
    const query = writeAddress(next)
    if (query !== location.search.slice(1)) {
      const step = isStep(written, next) && written.site !== null
      history[step ? 'pushState' : 'replaceState'](null, '', `?${query}`)
    }
    written = next
  }
  const goBack = () => {
    clearTimeout(timer)
    written = readAddress(location.search)
    // A page reads from one set of data for life.
    if (written.frozen !== frozenSetId()) {
      location.reload()
      return
    }
    restoreAddress(written)
    if (written.site !== null && written.site !== siteDocument()?.facts.id) openSite(written.site)
  }
  sync(
    () => [currentAddress(), playing()] as const,
    ([, running]) => {
      clearTimeout(timer)
      if (!running) timer = setTimeout(write, 200)
    },
  )
  addEventListener('popstate', goBack)
  onCleanup(() => {
    clearTimeout(timer)
    removeEventListener('popstate', goBack)
  })
}
