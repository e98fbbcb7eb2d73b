import { For, Show } from 'solid-js'
import { placedAlerts } from '../../derived/alerts/alert-marks.ts'
import { selectedAlerts } from '../../state/alert-marks.ts'
import { alertsAtClock, alertsKnown } from '../../state/alerts.ts'
import { selectedSymbol } from '../../state/plan-symbols.ts'
import { levelOf } from '../../ui/state-scale.ts'
import { AlertLine } from './AlertLine.tsx'
import { noneOpenSentence } from './none-open-sentence.ts'

/** Open alerts of the selected instrument, in its record; that there is none is said only of what is known. */
export function RecordAlerts() {
  const none = () =>
    noneOpenSentence(alertsKnown(), alertsAtClock(), levelOf(selectedSymbol()?.standing ?? 'unknown') > 0)
  return (
    <section class="record-alerts" aria-label="Open alerts">
      <h3>Open alerts</h3>
      <Show when={(selectedAlerts() ?? []).length > 0} fallback={<p class="waiting">{none()}</p>}>
        <div class="selected-alerts">
          <For each={selectedAlerts()}>{(alert) => <AlertLine alert={alert} />}</For>
        </div>
      </Show>
    </section>
  )
}

/** Open alerts that one level raised, beside its response plan. */
export function AlertsOfLevel(props: { level: string }) {
  const raised = () =>
    placedAlerts(alertsAtClock()?.alerts ?? []).filter(
      ({ cause }) => cause.kind === 'level' && cause.level.id === props.level,
    )
  return (
    <Show when={raised().length > 0}>
      <div class="selected-alerts">
        <For each={raised()}>{(alert) => <AlertLine alert={alert} />}</For>
      </div>
    </Show>
  )
}
