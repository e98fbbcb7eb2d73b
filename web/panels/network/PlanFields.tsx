import { For } from 'solid-js'
import { dutyBands868 } from '#domain/radio/duty-cycle.ts'
import { formatValue } from '../../ui/format-value.ts'
import { NumberField } from '../ground/NumberField.tsx'
import { type FactorChoice, factorChoices, type PlanDraft } from './plan-draft.ts'

const factorNames: Readonly<Record<FactorChoice, string>> = {
  tests: 'As this site’s coverage tests say',
  even: '7 to 12 evenly',
  '7': 'All at 7',
  '8': 'All at 8',
  '9': 'All at 9',
  '10': 'All at 10',
  '11': 'All at 11',
  '12': 'All at 12',
}

/** What is planned: how many loggers, how often and on what they send, and how much is to arrive. */
export function PlanFields(props: { draft: PlanDraft; change: (part: Partial<PlanDraft>) => void }) {
  return (
    <div class="ground-fields">
      <NumberField
        name="Loggers"
        unit=""
        value={props.draft.loggers}
        least={1}
        most={100_000}
        step={1}
        onChange={(loggers) => props.change({ loggers: Math.round(loggers) })}
      />
      <NumberField
        name="Minutes between readings"
        unit=""
        value={props.draft.intervalMinutes}
        least={0.1}
        most={1440}
        onChange={(intervalMinutes) => props.change({ intervalMinutes })}
      />
      <NumberField
        name="Channels"
        unit=""
        value={props.draft.channels}
        least={1}
        most={64}
        step={1}
        onChange={(channels) => props.change({ channels: Math.round(channels) })}
      />
      <NumberField
        name="Bytes of a reading"
        unit=""
        value={props.draft.applicationBytes}
        least={1}
        most={222}
        step={1}
        onChange={(bytes) => props.change({ applicationBytes: Math.round(bytes) })}
      />
      <label class="ground-field">
        Spreading factors
        <select
          value={props.draft.factors}
          onChange={(event) =>
            props.change({ factors: factorChoices[event.currentTarget.selectedIndex] ?? 'even' })
          }
        >
          <For each={factorChoices}>{(one) => <option value={one}>{factorNames[one]}</option>}</For>
        </select>
      </label>
      <NumberField
        name="Each reading is sent, times"
        unit=""
        value={props.draft.sendings}
        least={1}
        most={5}
        step={1}
        onChange={(sendings) => props.change({ sendings: Math.round(sendings) })}
      />
      <NumberField
        name="Link delivers"
        unit="%"
        value={props.draft.linkPercent}
        least={1}
        most={100}
        onChange={(linkPercent) => props.change({ linkPercent })}
      />
      <label class="ground-field">
        Band
        <select
          value={props.draft.bandId}
          onChange={(event) => props.change({ bandId: event.currentTarget.value })}
        >
          <For each={dutyBands868}>
            {(band) => (
              <option value={band.id}>
                {band.fromMhz} to {band.untilMhz} MHz, {formatValue(100 * band.dutyShare, 1)} %
              </option>
            )}
          </For>
        </select>
      </label>
      <NumberField
        name="Wanted to arrive"
        unit="%"
        value={props.draft.wantedPercent}
        least={1}
        most={99.99}
        onChange={(wantedPercent) => props.change({ wantedPercent })}
      />
    </div>
  )
}
