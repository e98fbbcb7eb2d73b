import { createMemo, createSignal, For, Show } from 'solid-js'
import {
  compareSettlement,
  type MeasuredSettlement,
} from '#domain/ground/consolidation/computed-and-measured.ts'
import { settlementFromPressures } from '#domain/ground/consolidation/settlement-from-pressures.ts'
import {
  compressibleLayers,
  type ExcessAtTip,
  excessOfTips,
} from '#domain/ground/consolidation/string-of-tips.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { comparedSettlementFigure, excessFigure } from '../../derived/figures/consolidation-figures.ts'
import { consolidationStart } from '../../derived/ground/computed-settlement.ts'
import { levelOfDeepest } from '../../derived/ground/string-pressures.ts'
import { selectedInstrument, selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'
import { createSettledPlaces } from './settled-places.ts'
import { createTipPressures } from './tip-pressures.ts'

/** Settlement that the fall of pore pressure in compressible layers explains, beside what is measured near it. */
export function LayersAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [since, setSince] = createSignal<number | null>(null)
  const sinceEpochMs = () => {
    return since() ?? consolidationStart(siteDocument()?.stages ?? [], clockEpochMs() ?? 0)
  }
  const { pressures, tips: allTips, remarks } = createTipPressures(sinceEpochMs)
  const settled = createSettledPlaces(sinceEpochMs)
  const locations = createMemo(() => {
    const bored = new Set(allTips().map(({ point }) => point.location))
    return (siteDocument()?.strata ?? [])
      .filter(
        ({ compressibilityM2PerKn, location }) => compressibilityM2PerKn !== null && bored.has(location),
      )
      .map(({ location }) => location)
      .filter((location, place, all) => all.indexOf(location) === place)
  })
  const [chosen, setChosen] = createSignal<string | null>(null)
  const location = () => {
    const wanted = chosen() ?? selectedInstrument()?.location
    return locations().find((one) => one === wanted) ?? locations()[0] ?? null
  }
  const [draining, setDraining] = createSignal<readonly string[]>([])
  const strata = () => (siteDocument()?.strata ?? []).filter((one) => one.location === location())
  const [restLevel, setRestLevel] = createSignal<number | null>(null)
  const [within, setWithin] = createSignal(15)
  const tips = () => (pressures() ?? []).filter((one) => one.location === location())
  const unitWeight = () => {
    const document = siteDocument()
    return document ? siteWater(document.facts).unitWeightKnPerM3 : 9.81
  }
  const restLevelMetres = () => restLevel() ?? levelOfDeepest(tips(), unitWeight()) ?? 0
  const outcome = createMemo(() =>
    pressures() === null || location() === null
      ? null
      : settlementFromPressures(
          compressibleLayers(strata(), new Set(draining())),
          excessOfTips(tips(), { start: restLevelMetres(), now: restLevelMetres() }, unitWeight()),
        ),
  )
  const measured = (): readonly MeasuredSettlement[] => {
    const at = siteDocument()?.locations.find(({ id }) => id === location())
    if (!at) return []
    return (settled.places() ?? []).flatMap((one) =>
      Math.hypot(one.eastingMetres - at.eastingMetres, one.northingMetres - at.northingMetres) <= within()
        ? [
            {
              id: one.id,
              settlementMm: one.valueMm,
              standardUncertaintyMm: one.standardUncertaintyMm,
              late: one.late,
            },
          ]
        : [],
    )
  }
  const compared = createMemo(() => {
    const found = outcome()
    return found?.ok && measured().length > 0 ? compareSettlement(found.value, measured()) : null
  })
  const options = () => ({
    title: `${location()}: from ${formatShortInstant(sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`,
    selected: selectedPoint()?.id ?? null,
    timeZone: zone(),
  })
  return (
    <Show
      when={locations().length > 0}
      fallback={
        <p class="waiting">
          No hole with piezometers has a layer whose compressibility is stated in strata.csv.
        </p>
      }
    >
      <div class="ground-fields">
        <label class="ground-field">
          Hole
          <select value={location() ?? ''} onChange={(event) => setChosen(event.currentTarget.value)}>
            <For each={locations()}>{(one) => <option value={one}>{one}</option>}</For>
          </select>
        </label>
        <SinceField name="Since" atEpochMs={sinceEpochMs()} onChange={setSince} />
        <NumberField
          name="Comes to rest at level"
          unit="m"
          value={restLevelMetres()}
          onChange={setRestLevel}
        />
        <NumberField name="Measured within" unit="m" value={within()} least={1} onChange={setWithin} />
      </div>
      <fieldset class="buttons">
        <legend>Layers that drain at once</legend>
        <For each={[...new Set(strata().map(({ stratum }) => stratum))]}>
          {(stratum) => (
            <button
              type="button"
              aria-pressed={draining().includes(stratum)}
              onClick={() =>
                setDraining(
                  draining().includes(stratum)
                    ? draining().filter((one) => one !== stratum)
                    : [...draining(), stratum],
                )
              }
            >
              {stratum}
            </button>
          )}
        </For>
      </fieldset>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={outcome()} keyed>
        {(found) => (
          <>
            <AnalysisResult
              figures={[excessFigure(found, options())]}
              accounts={found.ok ? [{ heading: 'From pore pressures', account: found.value }] : []}
              nameOf={(tip: ExcessAtTip) => tip.id}
            />
            <Show when={compared()} keyed>
              {(beside) => (
                <>
                  <h2>Beside what was measured within {within()} m</h2>
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
