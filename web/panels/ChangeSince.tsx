import { changeSinceEpochMs, countChangeFrom } from '../state/change-since.ts'
import { computedSinceEpochMs } from '../state/computed-since.ts'
import { isLayerShown } from '../state/plan-layers.ts'
import { siteDocument } from '../state/site-document.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'

/** The earlier of the two times between which change is drawn; the later one is the site clock. */
export function ChangeSince() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <label class="key-field">
      From
      <input
        type="datetime-local"
        value={toLocalField(isLayerShown('computed') ? computedSinceEpochMs() : changeSinceEpochMs(), zone())}
        onChange={(event) => countChangeFrom(fromLocalField(event.currentTarget.value, zone()))}
      />
      to the site clock
    </label>
  )
}
