import { For, Show } from 'solid-js'
import { responseOf } from '../../derived/alerts/response-state.ts'
import { alertsUnshown } from '../../state/alert-marks.ts'
import { alertsAtClock, alertsKnown } from '../../state/alerts.ts'
import { filters, toggleOpenAlerts } from '../../state/filters.ts'
import { palette } from '../../state/theme.ts'
import { AlertFrame } from '../../ui/AlertFrame.tsx'
import { type DrawnResponse, drawnResponses } from '../../ui/alert-mark.ts'

/** What the frames round symbols mean, how many there are, and the filter that leaves only those. */
export function AlertsKey() {
  const count = (response: DrawnResponse) =>
    alertsAtClock()?.alerts.filter((alert) => responseOf(alert) === response).length
  return (
    <fieldset>
      <legend>Open alerts, number of them</legend>
      <For each={drawnResponses}>
        {(response) => (
          <div class="key-row">
            <span />
            <AlertFrame response={response} palette={palette()} size={26} />
            <span>{names[response]}</span>
            <span class="key-count">{count(response) ?? '?'}</span>
          </div>
        )}
      </For>
      <label class="key-row">
        <input type="checkbox" checked={filters().openAlerts} onChange={toggleOpenAlerts} />
        <span>Only points with an open alert</span>
      </label>
      <Show when={filters().openAlerts && alertsAtClock() === null}>
        <p class="key-note key-warning">Alerts are not known: no point is hidden as without one.</p>
      </Show>
      <Show when={alertsUnshown().length > 0}>
        <p class="key-note key-warning">
          {alertsUnshown().length} of them {alertsUnshown().length === 1 ? 'is' : 'are'} on points that the
          plan does not show now.
        </p>
      </Show>
      <Show when={alertsKnown().kind !== 'present' || alertsAtClock()?.isPast}>
        <p class="key-note">
          {alertsAtClock()?.isPast
            ? `As they stood at the clock, by what is on record now.${alertsAtClock()?.mayLack ? ' Alerts closed more than 90 days ago are not listed: some that were open then may be missing.' : ''}`
            : 'Not those of now: see the list of alerts.'}
        </p>
      </Show>
    </fieldset>
  )
}

const names: Readonly<Record<DrawnResponse, string>> = {
  nobody: 'Nobody has taken it up',
  'taken-up': 'Taken up',
  verified: 'Verified, not closed',
}
