import { For } from 'solid-js'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'
import type { createWall } from './wall-of-panel.ts'

/** Which inclinometer, which way is into the dig, since when, how deep, and how far along the wall points count. */
export function WallFields(props: {
  wall: ReturnType<typeof createWall>
  within: number
  setWithin: (metres: number) => void
}) {
  return (
    <div class="ground-fields">
      <label class="ground-field ground-field-wide">
        Inclinometer
        <select
          value={props.wall.chosen()?.instrument.id}
          onChange={(event) => props.wall.choose(event.currentTarget.value)}
        >
          <For each={props.wall.walls()}>
            {({ instrument, face }) => (
              <option value={instrument.id}>
                {instrument.id}, {face.name}
              </option>
            )}
          </For>
        </select>
      </label>
      <label class="ground-field">
        Into the dig is
        <select
          value={props.wall.way()}
          onChange={(event) => props.wall.setWay(event.currentTarget.value as 'a+')}
        >
          <For each={['a+', 'a-', 'b+', 'b-']}>
            {(way) => (
              <option value={way}>
                {way[1] === '+' ? 'positive' : 'negative'} {way[0]?.toUpperCase()}
              </option>
            )}
          </For>
        </select>
      </label>
      <SinceField name="Since" atEpochMs={props.wall.sinceEpochMs()} onChange={props.wall.setSince} />
      <NumberField
        name="Dug to a depth of"
        unit="m"
        value={props.wall.depthMetres()}
        least={0}
        onChange={props.wall.setDepth}
      />
      <NumberField
        name="Points along the wall within"
        unit="m"
        value={props.within}
        least={0.5}
        onChange={props.setWithin}
      />
    </div>
  )
}
