import { For, Show } from 'solid-js'
import type { WallOverTunnel } from '#domain/ground/troughs/building-response.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createBuilding } from './building-of-panel.ts'
import { DriveFields } from './DriveFields.tsx'
import { createDrive } from './drive-of-panel.ts'
import { NumberField } from './NumberField.tsx'

/** What the trough of a tunnel would do to a wall of a building across it that follows the ground. */
export function BuildingAnalysis() {
  const tunnel = createDrive()
  const on = createBuilding(tunnel)
  return (
    <Show
      when={tunnel.alignment()}
      fallback={<p class="waiting">The works have no tunnel or other line along which chainage is told.</p>}
    >
      <DriveFields of={tunnel}>
        <label class="ground-field ground-field-wide">
          Building
          <select value={on.building()?.id} onChange={(event) => on.choose(event.currentTarget.value)}>
            <For each={on.buildings()}>{({ id, name }) => <option value={id}>{name}</option>}</For>
          </select>
        </label>
        <label class="ground-field">
          Trough
          <select
            value={on.expected() ? 'expected' : 'measured'}
            onChange={(event) => on.setExpected(event.currentTarget.value === 'expected')}
          >
            <option value="measured">measured, fitted</option>
            <option value="expected">expected</option>
          </select>
        </label>
        <NumberField
          name="Trough at chainage"
          unit="m"
          value={on.chainageMetres()}
          onChange={on.setChainage}
        />
        <NumberField name="Points within" unit="m" value={on.within()} least={0.5} onChange={on.setWithin} />
        <NumberField
          name="Height of the wall"
          unit="m"
          value={on.heightMetres()}
          least={0.1}
          onChange={on.setHeight}
        />
        <NumberField
          name="E/G of the wall"
          unit=""
          value={on.stiffnessRatio()}
          least={0.1}
          onChange={on.setStiffnessRatio}
        />
      </DriveFields>
      <Show
        when={on.building()}
        fallback={<p class="waiting">No building of the works stands within these offsets of the line.</p>}
      >
        {(wall) => (
          <p class="waiting">
            The wall is taken square across the tunnel, {formatValue(wall().fromOffsetMetres, 1)} to{' '}
            {formatValue(wall().toOffsetMetres, 1)} m from its line (right of travel positive), as wide as the
            recorded outline; its height is from recorded base to recorded top, roof and footings in it.
          </p>
        )}
      </Show>
      <For each={tunnel.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={on.shown()}
        fallback={<p class="waiting">{tunnel.waiting() ? 'Asking for settlements …' : 'Nothing to show.'}</p>}
      >
        {(result) => (
          <AnalysisResult
            figures={[result().figure]}
            accounts={result().accounts}
            nameOf={(wall: WallOverTunnel) => wall.id}
          />
        )}
      </Show>
    </Show>
  )
}
