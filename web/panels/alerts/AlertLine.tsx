import { Show } from 'solid-js'
import type { ListedAlert } from '#contract/alerts.ts'
import { alertsAtClock, alertsKnown } from '../../state/alerts.ts'
import { openAlert, openAlertsPage } from '../../state/alerts-page.ts'
import { mayHere } from '../../state/own-account.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteNaming } from './alert-naming.ts'
import { shortAlert } from './alert-words.ts'
import { ResponseFrame } from './ResponseFrame.tsx'

/** An alert in one line, at the site clock; opens its record. */
export function AlertLine(props: { alert: ListedAlert }) {
  const isLastKnown = () => alertsKnown().kind !== 'present' && !alertsAtClock()?.isPast
  const open = () => {
    // Its record is for those who work here; the list is for everyone.
    if (mayHere(siteDocument()?.facts.id ?? '', 'read-all')) openAlert(props.alert.alert)
    else openAlertsPage('list')
    openSheet('alerts')
  }
  return (
    <button type="button" class="alert-line" onClick={open}>
      <ResponseFrame alert={props.alert} size={20} />
      <span>
        {shortAlert(props.alert, alertsAtClock()?.atEpochMs ?? 0, siteNaming())}
        <Show when={isLastKnown()}> (as last heard)</Show>
        <Show when={alertsAtClock()?.isPast}> (as it stood)</Show>
      </span>
    </button>
  )
}
