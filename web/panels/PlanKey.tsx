import { createMemo, For, Show } from 'solid-js'
import { type InstrumentKind, instrumentKinds } from '#domain/site/vocabulary.ts'
import { filters, toggleKind, toggleStanding } from '../state/filters.ts'
import { isLayerShown, type PlanLayer, planLayers, surfaceLayers, toggleLayer } from '../state/plan-layers.ts'
import { planSurface, surfaceTrouble } from '../state/plan-surface.ts'
import { setting } from '../state/setting.ts'
import { siteDocument } from '../state/site-document.ts'
import { standingSummary } from '../state/standing-summary.ts'
import { palette } from '../state/theme.ts'
import { KindSymbol } from '../ui/KindSymbol.tsx'
import { kindNames } from '../ui/kind-names.ts'
import { type Standing, standingName } from '../ui/state-scale.ts'
import { AlertsKey } from './alerts/AlertsKey.tsx'
import { asMeasured } from './as-measured.ts'
import { ChangeSince } from './ChangeSince.tsx'
import { CoverageList } from './CoverageList.tsx'
import { DeliveryKey } from './DeliveryKey.tsx'
import { NoteList } from './NoteList.tsx'
import { NeighbourKey } from './review/NeighbourKey.tsx'
import { SurfaceChoice } from './SurfaceChoice.tsx'
import { SurfaceKey } from './SurfaceKey.tsx'
import { SurfaceProgress } from './SurfaceProgress.tsx'

/** The key of the plan: what symbols and fills mean, and which of them are shown. */
export function PlanKey() {
  const levelNames = () => siteDocument()?.facts.levelNames ?? []
  const levels = () => Math.max(1, levelNames().length)
  const kinds = createMemo(() => {
    const present = new Map<InstrumentKind, number>()
    for (const { kind } of siteDocument()?.instruments ?? []) present.set(kind, (present.get(kind) ?? 0) + 1)
    return instrumentKinds.flatMap((kind) =>
      present.has(kind) ? { kind, count: present.get(kind) ?? 0 } : [],
    )
  })
  const standings = (): readonly Standing[] => [
    'out-of-use',
    'late',
    'no-level',
    'within',
    ...levelNames().map((_, place) => `level-${place + 1}` as const),
  ]
  const counts = (standing: Standing): string => {
    const summary = standingSummary()
    if (!summary) return ''
    if (standing === 'out-of-use') return String(summary.outOfUse)
    if (standing === 'late') return String(summary.late)
    if (standing === 'within') return String(summary.within)
    if (standing === 'no-level') return String(summary.noLevel)
    return String(summary.reached[Number(standing.slice(6)) - 1] ?? 0)
  }
  return (
    <details class="plan-key" open={setting() === 'desk' && matchMedia('(min-width: 1500px)').matches}>
      <summary>Key and layers</summary>
      <div class="plan-key-body">
        <fieldset>
          <legend>State, number of series</legend>
          <For each={standings()}>
            {(standing) => (
              <label class="key-row">
                <input
                  type="checkbox"
                  checked={filters().standings.length === 0 || filters().standings.includes(standing)}
                  onChange={() => toggleStanding(standing)}
                />
                <KindSymbol
                  kind="settlement-point"
                  standing={standing}
                  share={standing === 'within' ? 0.6 : standing.startsWith('level-') ? 1 : null}
                  partLate={false}
                  levels={levels()}
                  palette={palette()}
                  size={30}
                />
                <span>{standingName(standing, levelNames())}</span>
                <span class="key-count">{counts(standing)}</span>
              </label>
            )}
          </For>
          <p class="key-note">
            Arc: share of the first level used. Lower part hatched: some of it is silent. Crossed out: taken
            out of use, nothing is measured there. Hourglass, lower left, in the past: a value of it came
            later.
          </p>
        </fieldset>
        <AlertsKey />
        <fieldset>
          <legend>Instruments</legend>
          <For each={kinds()}>
            {({ kind, count }) => (
              <label class="key-row">
                <input
                  type="checkbox"
                  checked={!filters().hiddenKinds.includes(kind)}
                  onChange={() => toggleKind(kind)}
                />
                <KindSymbol
                  kind={kind}
                  standing="no-level"
                  share={null}
                  partLate={false}
                  levels={levels()}
                  palette={palette()}
                  size={30}
                />
                <span>{kindNames[kind]}</span>
                <span class="key-count">{count}</span>
              </label>
            )}
          </For>
        </fieldset>
        <fieldset>
          <legend>Layers</legend>
          <For each={planLayers}>
            {(layer) => (
              <label class="key-row">
                <input type="checkbox" checked={isLayerShown(layer)} onChange={() => toggleLayer(layer)} />
                <span>{layerNames[layer]}</span>
              </label>
            )}
          </For>
          <Show when={isLayerShown('works') && (siteDocument()?.wells.length ?? 0) > 0}>
            <p class="key-note">
              Ring with a dot: pumped well with its rate at the clock; without: not pumped.
            </p>
          </Show>
          <Show when={isLayerShown('change') || isLayerShown('computed')}>
            <ChangeSince />
          </Show>
          <Show when={surfaceLayers.some(isLayerShown)}>
            <SurfaceChoice />
            <SurfaceProgress />
            <SurfaceKey />
            <For each={asMeasured()}>{(sentence) => <p class="key-note">{sentence}</p>}</For>
            <p class="key-note">
              {planSurface()?.note ?? surfaceTrouble() ?? 'Contours are being worked out.'}
            </p>
          </Show>
          <Show when={isLayerShown('delivery')}>
            <DeliveryKey />
          </Show>
          <Show when={isLayerShown('coverage')}>
            <p class="key-note">
              Coverage tests: a bar a spreading factor, SF 7 to SF 12 from the left, filled from half
              delivered on. Rule: at least half of the packets in any one spreading factor (common practice,
              no published source). It says nothing of a later obstruction.
            </p>
            <CoverageList />
          </Show>
          <Show when={isLayerShown('notes')}>
            <p class="key-note">
              Framed sign beside its place: ! damage, n note, a number where there are several. Where the
              writer stood; without that, where what is named stands. Only what this device has heard of.
            </p>
            <NoteList />
          </Show>
          <Show when={isLayerShown('neighbours')}>
            <NeighbourKey />
          </Show>
        </fieldset>
      </div>
    </details>
  )
}

const layerNames: Readonly<Record<PlanLayer, string>> = {
  works: 'Works at the clock',
  labels: 'Names',
  contours: 'Settlement contours',
  change: 'Change between two times',
  water: 'Piezometric level in a stratum',
  computed: 'Settlement computed from pore pressures',
  delivery: 'Predicted radio delivery',
  coverage: 'Coverage tests',
  radio: 'Loggers and gateways',
  notes: 'Field notes',
  neighbours: 'Neighbours of what is reviewed',
}
