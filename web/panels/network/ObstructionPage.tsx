import { createMemo, createSignal, For, Show } from 'solid-js'
import { radioSiteOf } from '../../derived/radio/radio-site-of.ts'
import { planTool, takePlanTool } from '../../state/plan-tool.ts'
import {
  placeObstruction,
  plannedGateway,
  plannedObstruction,
  planObstruction,
} from '../../state/radio-plan.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { NumberField } from '../ground/NumberField.tsx'
import { readCorners } from '../read-corners.ts'
import { ChangeTable } from './ChangeTable.tsx'
import { cornersText } from './corner-text.ts'
import { StudyShown } from './StudyShown.tsx'
import { WantedFields } from './WantedFields.tsx'

/** What a planned obstruction would do to each link, before it is built. */
export function ObstructionPage() {
  return (
    <section class="network-page" aria-label="Obstruction">
      <p>
        Draw a wall or a stack where it is to stand, or write its corners, and see what each logger would
        deliver with it.
      </p>
      <WantedFields />
      <ObstructionFields />
      <Show when={plannedGateway()}>
        {(gateway) => <p class="trouble">{gateway().id} is planned elsewhere too: both changes count.</p>}
      </Show>
      <Show when={plannedObstruction()} fallback={<p class="waiting">Nothing is planned yet.</p>}>
        <StudyShown>{(study) => <ChangeTable study={study()} />}</StudyShown>
      </Show>
    </section>
  )
}

function ObstructionFields() {
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ofWorks = createMemo(() => {
    const [document, grid, at] = [siteDocument(), siteGrid(), clockEpochMs() ?? 0]
    if (!document || !grid) return []
    return radioSiteOf(document, grid).obstructions.filter(
      ({ fromEpochMs, untilEpochMs }) =>
        (fromEpochMs !== null && fromEpochMs > at) || (untilEpochMs !== null && untilEpochMs <= at),
    )
  })
  const takeOfWorks = (id: string) => {
    const found = ofWorks().find((one) => one.id === id)
    if (!found) return
    const [first, last] = [found.outline[0], found.outline.at(-1)]
    const closed = found.outline.length > 3 && first?.[0] === last?.[0] && first?.[1] === last?.[1]
    const corners = closed ? found.outline.slice(0, -1) : found.outline
    planObstruction({
      corners: corners.map(([eastingMetres, northingMetres]) => ({ eastingMetres, northingMetres })),
      closed,
      topLevelMetres: found.topLevelMetres,
    })
  }
  const write = (text: string) => {
    const read = readCorners(text, 2, 'An obstruction')
    setTrouble(read.ok ? null : read.issues.map(({ message }) => message).join(' '))
    if (read.ok) placeObstruction(read.value)
  }
  return (
    <>
      <div class="network-buttons">
        <button
          type="button"
          class="primary"
          aria-pressed={planTool() === 'obstruction'}
          onClick={() => takePlanTool(planTool() === 'obstruction' ? null : 'obstruction')}
        >
          {planTool() === 'obstruction' ? 'Tapping on the plan …' : 'Draw it on the plan'}
        </button>
        <Show when={plannedObstruction()}>
          <button type="button" onClick={() => planObstruction(null)}>
            Take it away
          </button>
        </Show>
      </div>
      <div class="network-fields">
        <Show when={ofWorks().length > 0}>
          <label class="network-field">
            From the works, not standing at the clock
            <select
              value=""
              onChange={(event) => {
                takeOfWorks(event.currentTarget.value)
                event.currentTarget.value = ''
              }}
            >
              <option value="">choose …</option>
              <For each={ofWorks()}>{({ id, name }) => <option value={id}>{name}</option>}</For>
            </select>
          </label>
        </Show>
        <label class="network-field network-field-wide">
          Corners: easting northing; …
          <input
            type="text"
            value={cornersText(plannedObstruction()?.corners ?? [])}
            onChange={(event) => write(event.currentTarget.value)}
          />
        </label>
        <Show when={plannedObstruction()}>
          {(planned) => (
            <>
              <NumberField
                name="Level of its top"
                unit="m"
                value={planned().topLevelMetres}
                least={-100}
                most={500}
                onChange={(topLevelMetres) => planObstruction({ ...planned(), topLevelMetres })}
              />
              <label class="network-check">
                <input
                  type="checkbox"
                  checked={planned().closed}
                  disabled={planned().corners.length < 3}
                  onChange={(event) => planObstruction({ ...planned(), closed: event.currentTarget.checked })}
                />
                A box, closed from its last corner to its first
              </label>
            </>
          )}
        </Show>
      </div>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </>
  )
}
