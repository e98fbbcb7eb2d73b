import { For, type JSX, Show } from 'solid-js'
import { siteAlignments } from '../../state/alignments.ts'
import type { DriveOfPanel } from './drive-of-panel.ts'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'

/** What an analysis of a tunnel is told of it, and its own fields among these. */
export function DriveFields(props: { of: DriveOfPanel; children?: JSX.Element }) {
  return (
    <div class="ground-fields">
      <Show when={siteAlignments().length > 1}>
        <label class="ground-field">
          Along
          <select
            value={props.of.alignment()?.id}
            onChange={(event) => props.of.choose(event.currentTarget.value)}
          >
            <For each={siteAlignments()}>{(one) => <option value={one.id}>{one.name}</option>}</For>
          </select>
        </label>
      </Show>
      <SinceField name="Settlement since" atEpochMs={props.of.sinceEpochMs()} onChange={props.of.setSince} />
      {props.children}
      <NumberField
        name="Offsets to"
        unit="m"
        value={props.of.reachMetres()}
        least={1}
        onChange={props.of.setReach}
      />
      <NumberField
        name="Face diameter"
        unit="m"
        value={props.of.drive().diameterMetres}
        least={0.1}
        onChange={props.of.setDiameter}
      />
      <NumberField
        name="Axis below ground"
        unit="m"
        value={props.of.drive().axisDepthMetres}
        least={0.1}
        onChange={props.of.setAxisDepth}
      />
      <NumberField
        name="Expected volume loss"
        unit="%"
        value={props.of.lossPercent()}
        least={0}
        most={100}
        onChange={props.of.setLossPercent}
      />
      <NumberField
        name="Expected K"
        unit=""
        value={props.of.drive().widthParameter}
        least={0.05}
        most={2}
        onChange={props.of.setWidthParameter}
      />
    </div>
  )
}
