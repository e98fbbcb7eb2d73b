import { createMemo, createSignal, For, Show } from 'solid-js'
import { type TipBelow, upliftBelow } from '#domain/ground/uplift.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { upliftFigure } from '../../derived/figures/uplift-figure.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { stagesAtClock } from '../../state/works-stage.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { createTipPressures } from './tip-pressures.ts'

/** Pressure below an excavation against the weight left above it, at the clock and for the digging still to come. */
export function UpliftAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const { pressures, tips, remarks, waiting } = createTipPressures(clockEpochMs)
  const [chosen, setChosen] = createSignal<string | null>(null)
  /** The chosen tip, else the selected one, else the deepest. */
  const tip = createMemo(() => {
    const wanted = chosen() ?? selectedPoint()?.id
    const deepest = tips().toSorted((one, other) => one.point.levelMetres - other.point.levelMetres)[0]
    return tips().find(({ point }) => point.id === wanted) ?? deepest ?? null
  })
  const [formation, setFormation] = createSignal<number | null>(null)
  /** Of the latest stage begun that states one; before any, the ground. */
  const formationLevelMetres = () =>
    formation() ??
    stagesAtClock().find((stage) => stage.formationLevelMetres !== null)?.formationLevelMetres ??
    (siteDocument()?.stages ?? [])
      .filter((stage) => stage.startsAt <= (clockEpochMs() ?? 0) && stage.formationLevelMetres !== null)
      .toSorted((one, other) => other.startsAt - one.startsAt)[0]?.formationLevelMetres ??
    siteDocument()?.facts.groundLevelMetres ??
    0
  const outcome = createMemo(() => {
    const [document, read, on] = [siteDocument(), pressures(), tip()]
    const now = read?.find(({ id }) => id === on?.point.id)
    if (!document || !on || !now) return null
    return upliftBelow(
      {
        id: on.point.id,
        levelMetres: on.point.levelMetres,
        porePressureKpa: now.nowKpa,
        late: now.late,
      },
      document.strata.filter(({ location }) => location === on.point.location),
      formationLevelMetres(),
      siteWater(document.facts).unitWeightKnPerM3,
    )
  })
  return (
    <Show
      when={tips().length > 0}
      fallback={<p class="waiting">No piezometer gives a pore pressure in kPa at the clock.</p>}
    >
      <div class="ground-fields">
        <label class="ground-field">
          Tip
          <select value={tip()?.point.id ?? ''} onChange={(event) => setChosen(event.currentTarget.value)}>
            <For each={tips()}>
              {({ point }) => (
                <option value={point.id}>
                  {point.id}, {point.levelMetres.toFixed(1).replace('-', '−')} m
                </option>
              )}
            </For>
          </select>
        </label>
        <NumberField name="Formation level" unit="m" value={formationLevelMetres()} onChange={setFormation} />
      </div>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={outcome()}
        keyed
        fallback={<p class="waiting">{waiting() ? 'Asking for pore pressures …' : 'No readings.'}</p>}
      >
        {(found) => (
          <AnalysisResult
            figures={[
              upliftFigure(found, formationLevelMetres(), {
                title: `${tip()?.point.id}: pressure against the weight above it at ${formatShortInstant(clockEpochMs() ?? 0, zone())}`,
                selected: null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.ok ? [{ heading: 'Uplift', account: found.value }] : []}
            nameOf={(one: TipBelow) => one.id}
          />
        )}
      </Show>
    </Show>
  )
}
