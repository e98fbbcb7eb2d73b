import { Show } from 'solid-js'
import { alertsDocument, alertsKnown, alertsNowEpochMs, evaluationHere } from '../state/alerts.ts'
import { openAlertsPage } from '../state/alerts-page.ts'
import { openSheet } from '../state/sheet.ts'
import { siteDocument } from '../state/site-document.ts'
import { channelsNow } from '../state/watched-channels.ts'
import { bannerSentence } from './alerts/banner-sentence.ts'

/** Stands over the page while something cannot be known or told now, whatever the clock shows; opens the list. */
export function AlertsBanner() {
  const sentence = () => {
    const standing = alertsKnown()
    // What was never asked for is on its way; the tab says so.
    if (siteDocument() === null || (standing.kind === 'unknown' && !standing.isRefused)) return null
    return bannerSentence({
      standing,
      document: alertsDocument(),
      evaluation: evaluationHere(),
      channels: channelsNow(),
      nowEpochMs: alertsNowEpochMs(),
      timeZone: siteDocument()?.facts.timeZone ?? 'UTC',
      drillGoesByClock: siteDocument()?.facts.presentEpochMs === null,
    })
  }
  const open = () => {
    openAlertsPage('list')
    openSheet('alerts')
  }
  return (
    <Show when={sentence()}>
      {(text) => (
        <button type="button" class="alerts-banner" onClick={open}>
          {text()}
        </button>
      )}
    </Show>
  )
}
