import { For, Show } from 'solid-js'
import type { PlacedPoint } from '#contract/site-document.ts'
import { selectedSymbol } from '../state/plan-symbols.ts'
import {
  selectedInstrument,
  selectedPoint,
  selectedPoints,
  selectInstrument,
  selectNothing,
  selectPoint,
} from '../state/selection.ts'
import { laterAtClock, statesAtClock } from '../state/series-states.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument, siteLookup } from '../state/site-document.ts'
import { palette } from '../state/theme.ts'
import { KindSymbol } from '../ui/KindSymbol.tsx'
import { kindNames, measureNames } from '../ui/kind-names.ts'
import { isSilent, standingOf } from '../ui/state-scale.ts'
import { SelectedAlerts } from './alerts/SelectedAlerts.tsx'
import { describePoint, describeSymbol } from './describe-point.ts'
import { KnownThen } from './KnownThen.tsx'

/** What is selected: its symbol and state, its measuring points, and the measures of the chosen point. */
export function SelectionStrip() {
  const levels = () => Math.max(1, siteDocument()?.facts.levelNames.length ?? 1)
  const members = () => {
    const { pointById } = siteLookup()
    return (selectedInstrument()?.points ?? []).flatMap((id) => pointById.get(id) ?? [])
  }
  const stateOf = (number: number | null) =>
    number === null ? undefined : statesAtClock()?.states.get(number)
  const isOutOfUse = (point: PlacedPoint) =>
    [
      point.retiredAtEpochMs,
      selectedInstrument()?.retiredAtEpochMs,
      siteLookup().endOfSeries.get(point.primarySeries ?? -1),
    ].some((end) => end != null && end <= (clockEpochMs() ?? 0))
  const measuresOf = (point: string) => siteLookup().seriesOfPoint.get(point) ?? []
  const standing = (number: number | null) => (statesAtClock() ? standingOf(stateOf(number)) : 'unknown')
  const headStanding = () => {
    const point = selectedPoint()
    return point && isOutOfUse(point) ? 'out-of-use' : (selectedSymbol()?.standing ?? 'unknown')
  }
  return (
    <Show
      when={selectedInstrument()}
      fallback={
        <p class="selection-none">
          Nothing selected. Tap an instrument on the plan, or choose a row of the register.
        </p>
      }
    >
      {(instrument) => (
        <div class="selection">
          <div class="selection-head">
            <KindSymbol
              kind={instrument().kind}
              standing={headStanding()}
              share={selectedSymbol()?.share ?? null}
              partLate={selectedSymbol()?.partLate ?? false}
              levels={levels()}
              palette={palette()}
              size={48}
              cameLater={selectedSymbol()?.cameLater ?? false}
            />
            <div>
              <h2>
                {selectedPoint()?.id ?? instrument().id} <small>{kindNames[instrument().kind]}</small>
              </h2>
              <p>
                {selectedPoint()
                  ? describePoint(selectedPoints()[0], clockEpochMs() ?? 0)
                  : describeSymbol(selectedSymbol())}
              </p>
            </div>
            <button type="button" aria-label="Select nothing" onClick={selectNothing}>
              ✕
            </button>
          </div>
          <Show when={siteLookup().seriesByNumber.get(selectedPoints()[0]?.primarySeries ?? -1)}>
            {(series) => <KnownThen series={series()} />}
          </Show>
          <SelectedAlerts />
          <fieldset class="selection-members" aria-label="Measuring points">
            <Show when={members().length > 1}>
              <button
                type="button"
                aria-pressed={selectedPoint() === null}
                onClick={() => selectInstrument(instrument().id)}
              >
                All {members().length}
              </button>
              <For each={members()}>
                {(point) => (
                  <button
                    type="button"
                    aria-pressed={selectedPoint()?.id === point.id}
                    onClick={() => selectPoint(point.id)}
                  >
                    <KindSymbol
                      kind={point.kind}
                      standing={isOutOfUse(point) ? 'out-of-use' : standing(point.primarySeries)}
                      share={null}
                      partLate={
                        !isOutOfUse(point) &&
                        statesAtClock() !== null &&
                        isSilent(stateOf(point.primarySeries))
                      }
                      levels={levels()}
                      palette={palette()}
                      size={24}
                      cameLater={laterAtClock()?.has(point.primarySeries ?? -1) ?? false}
                    />
                    {memberName(point.id, instrument().id)}
                    <Show when={isOutOfUse(point)}>
                      <small>out of use</small>
                    </Show>
                  </button>
                )}
              </For>
            </Show>
            <Show when={selectedPoint()}>
              {(point) => (
                <Show when={measuresOf(point().id).length > 1}>
                  <For each={measuresOf(point().id)}>
                    {(series) => (
                      <button
                        type="button"
                        class="measure"
                        onClick={() => selectPoint(point().id, series.measure)}
                      >
                        {measureNames[series.measure]}
                      </button>
                    )}
                  </For>
                </Show>
              )}
            </Show>
          </fieldset>
        </div>
      )}
    </Show>
  )
}

/** A member's name without its instrument's: `A`, `03`; the whole name where nothing would be left. */
function memberName(point: string, instrument: string): string {
  if (!point.startsWith(instrument)) return point
  return point.slice(instrument.length).replace(/^[-/.]/, '') || point
}
