import { Show } from 'solid-js'
import { clearFilters, filters, filterText, noFilters, toggleOpenAlerts } from '../state/filters.ts'
import { Register } from '../views/register/Register.tsx'

/** The register with its search; states and kinds are filtered in the key of the plan, for both alike. */
export function RegisterPanel() {
  return (
    <div class="register-panel">
      <div class="register-tools">
        <input
          type="search"
          id="register-search"
          placeholder="Find a point or logger"
          aria-label="Find a point or logger"
          value={filters().text}
          onInput={(event) => filterText(event.currentTarget.value)}
        />
        <label class="register-open-alerts">
          <input type="checkbox" checked={filters().openAlerts} onChange={toggleOpenAlerts} />
          With an open alert
        </label>
        <Show when={JSON.stringify(filters()) !== JSON.stringify(noFilters)}>
          <button type="button" onClick={clearFilters}>
            Take filters off
          </button>
        </Show>
      </div>
      <Register />
    </div>
  )
}
