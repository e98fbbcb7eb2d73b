import { For } from 'solid-js'
import type { createDrawdown } from './create-drawdown.ts'
import { NumberField } from './NumberField.tsx'

/** Which layer, by which parameters, and beside which readings. */
export function DrawdownFields(props: { drawdown: ReturnType<typeof createDrawdown> }) {
  return (
    <div class="ground-fields">
      <label class="ground-field">
        Stratum
        <select
          value={props.drawdown.stratum() ?? ''}
          onChange={(event) => props.drawdown.setStratum(event.currentTarget.value)}
        >
          <For each={props.drawdown.strata()}>{(one) => <option value={one}>{one}</option>}</For>
        </select>
      </label>
      <label class="ground-field">
        T and S
        <select
          value={props.drawdown.isFitted() ? 'fitted' : 'stated'}
          onChange={(event) => props.drawdown.setFitted(event.currentTarget.value === 'fitted')}
        >
          <option value="stated">as stated in the records</option>
          <option value="fitted">fitted to these readings</option>
        </select>
      </label>
      <label class="ground-field">
        Tips inside excavations
        <select
          value={props.drawdown.areInsideToo() ? 'compared' : 'left-out'}
          onChange={(event) => props.drawdown.setInsideToo(event.currentTarget.value === 'compared')}
        >
          <option value="left-out">left out</option>
          <option value="compared">compared too</option>
        </select>
      </label>
      <NumberField
        name="Level before: mean over"
        unit="d"
        value={props.drawdown.daysBefore()}
        least={1}
        most={365}
        onChange={props.drawdown.setDaysBefore}
      />
      <label class="ground-field">
        Over time at
        <select
          value={props.drawdown.found()?.tip ?? ''}
          onChange={(event) => props.drawdown.setTip(event.currentTarget.value)}
        >
          <For each={props.drawdown.tips()}>{(id) => <option value={id}>{id}</option>}</For>
        </select>
      </label>
    </div>
  )
}
