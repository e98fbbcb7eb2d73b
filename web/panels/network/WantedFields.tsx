import { For } from 'solid-js'
import { type SpreadingFactor, spreadingFactors } from '#domain/site/vocabulary.ts'
import { isLayerShown, toggleLayer } from '../../state/plan-layers.ts'
import {
  radioTerms,
  showFactor,
  showGateway,
  shownFactor,
  shownGateway,
  stateTerms,
  wantedShare,
  wantShare,
} from '../../state/radio-plan.ts'
import { siteDocument } from '../../state/site-document.ts'
import { NumberField } from '../ground/NumberField.tsx'

/** What is asked of links: the delivery wanted, the spreading factor, and the plan's picture of it. */
export function WantedFields() {
  return (
    <div class="network-fields">
      <NumberField
        name="Wanted delivery"
        unit="%"
        value={100 * wantedShare()}
        least={50}
        most={99.9}
        onChange={(percent) => wantShare(percent / 100)}
      />
      <label class="network-field">
        Spreading factor
        <select
          value={shownFactor()}
          onChange={(event) => showFactor(Number(event.currentTarget.value) as SpreadingFactor)}
        >
          <For each={spreadingFactors}>{(factor) => <option value={factor}>SF {factor}</option>}</For>
        </select>
      </label>
      <label class="network-field">
        Gateway on the plan
        <select
          value={shownGateway() ?? ''}
          onChange={(event) => showGateway(event.currentTarget.value || null)}
        >
          <option value="">the best of all</option>
          <For each={siteDocument()?.gateways ?? []}>{({ id }) => <option value={id}>{id}</option>}</For>
        </select>
      </label>
      <NumberField
        name="Frequency"
        unit="MHz"
        value={radioTerms().frequencyMHz}
        least={100}
        most={3000}
        onChange={(frequencyMHz) => stateTerms({ ...radioTerms(), frequencyMHz })}
      />
      <NumberField
        name="Noise figure"
        unit="dB"
        value={radioTerms().noiseFigureDb}
        least={0}
        most={20}
        onChange={(noiseFigureDb) => stateTerms({ ...radioTerms(), noiseFigureDb })}
      />
      <button type="button" aria-pressed={isLayerShown('delivery')} onClick={() => toggleLayer('delivery')}>
        Predicted delivery on the plan
      </button>
    </div>
  )
}
