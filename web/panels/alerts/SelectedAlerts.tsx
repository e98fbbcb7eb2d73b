import { For, Show } from 'solid-js'
import { selectedAlerts } from '../../state/alert-marks.ts'
import { openSheet } from '../../state/sheet.ts'
import { AlertLine } from './AlertLine.tsx'

const most = 2

/** Open alerts of the selection, a line each; each opens its record. */
export function SelectedAlerts() {
  const shown = () => (selectedAlerts() ?? []).slice(0, most)
  const more = () => (selectedAlerts()?.length ?? 0) - shown().length
  return (
    <Show when={shown().length > 0}>
      <div class="selected-alerts">
        <For each={shown()}>{(alert) => <AlertLine alert={alert} />}</For>
        <Show when={more() > 0}>
          <button type="button" onClick={() => openSheet('alerts')}>
            {more()} more
          </button>
        </Show>
      </div>
    </Show>
  )
}
