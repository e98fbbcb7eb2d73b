import { For, Show } from 'solid-js'
import type { MeasuredSettlement } from '#domain/ground/consolidation/computed-and-measured.ts'
import type { ExcessAtTip } from '#domain/ground/consolidation/string-of-tips.ts'
import { comparedSettlementFigure, excessFigure } from '../../derived/figures/consolidation-figures.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createLayers } from './layers-of-panel.ts'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'

/** Settlement that the fall of pore pressure in compressible layers explains, beside what is measured near it. */
export function LayersAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const hole = createLayers()
  const options = () => ({
    title: `${hole.location()}: from ${formatShortInstant(hole.sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`,
    selected: selectedPoint()?.id ?? null,
    timeZone: zone(),
  })
  return (
    <Show
      when={hole.locations().length > 0}
      fallback={
        <p class="waiting">
          No hole with piezometers has a layer whose compressibility is stated in strata.csv.
        </p>
      }
    >
      <div class="ground-fields">
        <label class="ground-field">
          Hole
          <select
            value={hole.location() ?? ''}
            onChange={(event) => hole.setChosen(event.currentTarget.value)}
          >
            <For each={hole.locations()}>{(one) => <option value={one}>{one}</option>}</For>
          </select>
        </label>
        <SinceField name="Since" atEpochMs={hole.sinceEpochMs()} onChange={hole.setSince} />
        <NumberField
          name="Comes to rest at level"
          unit="m"
          value={hole.restLevelMetres()}
          onChange={hole.setRestLevel}
        />
        <NumberField
          name="Measured within"
          unit="m"
          value={hole.within()}
          least={1}
          onChange={hole.setWithin}
        />
      </div>
      <fieldset class="buttons">
        <legend>Layers that drain at once</legend>
        <For each={[...new Set(hole.strata().map(({ stratum }) => stratum))]}>
          {(stratum) => (
            <button
              type="button"
              aria-pressed={hole.draining().includes(stratum)}
              onClick={() =>
                hole.setDraining(
                  hole.draining().includes(stratum)
                    ? hole.draining().filter((one) => one !== stratum)
                    : [...hole.draining(), stratum],
                )
              }
            >
              {stratum}
            </button>
          )}
        </For>
      </fieldset>
      <For each={hole.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={hole.outcome()} keyed>
        {(found) => (
          <>
            <AnalysisResult
              figures={[excessFigure(found, options())]}
              accounts={found.ok ? [{ heading: 'From pore pressures', account: found.value }] : []}
              nameOf={(tip: ExcessAtTip) => tip.id}
            />
            <Show when={hole.compared()} keyed>
              {(beside) => (
                <>
                  <h2>Beside what was measured within {hole.within()} m</h2>
                  <ul>
                    <For each={beside.compared}>{({ sentence }) => <li>{sentence}</li>}</For>
                  </ul>
                  <AnalysisResult
                    figures={[comparedSettlementFigure(beside, options())]}
                    accounts={[{ heading: 'Compared', account: beside }]}
                    nameOf={(point: MeasuredSettlement) => point.id}
                  />
                </>
              )}
            </Show>
          </>
        )}
      </Show>
    </Show>
  )
}
