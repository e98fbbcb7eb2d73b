import { For, Show } from 'solid-js'
import {
  type AlertsPage,
  alertsPage,
  alertsPages,
  openAlertsPage,
  openedAlert,
} from '../../state/alerts-page.ts'
import { reportTrouble } from '../../state/notices.ts'
import { mayHere, signedInName } from '../../state/own-account.ts'
import { siteDocument } from '../../state/site-document.ts'
import { Later } from '../../ui/Later.tsx'
import { AlertRecordPage } from './AlertRecordPage.tsx'
import { alertsPageParts } from './alerts-pages.ts'
import './alerts.css'

/** Alerts and responses: the list, one alert's record, and what is made of them. */
export function AlertsPanel() {
  const failed = (cause: unknown) => reportTrouble({ cause, retry: () => location.reload() })
  const mayReadAll = () => mayHere(siteDocument()?.facts.id ?? '', 'read-all')
  const isOffered = (page: AlertsPage) =>
    page === 'list' || (page === 'ways' ? signedInName() !== null : mayReadAll())
  return (
    <div class="alerts-panel">
      <nav class="alerts-pages" aria-label="Alerts and responses">
        <For each={alertsPages.filter(isOffered)}>
          {(page) => (
            <button
              type="button"
              aria-current={alertsPage() === page && openedAlert() === null ? 'page' : undefined}
              onClick={() => openAlertsPage(page)}
            >
              {alertsPageParts[page].name}
            </button>
          )}
        </For>
      </nav>
      <Show when={openedAlert()} keyed>
        {(alert) => <AlertRecordPage alert={alert} />}
      </Show>
      <Show when={openedAlert() === null}>
        <Show when={alertsPage()} keyed>
          {(page) => (
            <Later
              when={true}
              load={alertsPageParts[page].load}
              waiting={`Fetching ${alertsPageParts[page].name.toLowerCase()} …`}
              failed={failed}
            />
          )}
        </Show>
      </Show>
    </div>
  )
}
