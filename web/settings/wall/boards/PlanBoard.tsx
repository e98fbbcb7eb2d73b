import { createMemo, For, Show } from 'solid-js'
import { type InstrumentKind, instrumentKinds } from '#domain/site/vocabulary.ts'
import { asMeasured } from '../../../panels/as-measured.ts'
import { SurfaceKey } from '../../../panels/SurfaceKey.tsx'
import { alertMarksShown } from '../../../state/alert-marks.ts'
import { isLayerShown, surfaceLayers } from '../../../state/plan-layers.ts'
import { surfaceTrouble, workedSurface } from '../../../state/plan-surface.ts'
import { shownSymbols } from '../../../state/plan-symbols.ts'
import { countedAtClock, statesTrouble } from '../../../state/series-states.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { standingSummary } from '../../../state/standing-summary.ts'
import { palette } from '../../../state/theme.ts'
import { leastText } from '../../../state/wall-text.ts'
import { AlertFrame } from '../../../ui/AlertFrame.tsx'
import { KindSymbol } from '../../../ui/KindSymbol.tsx'
import { kindNames } from '../../../ui/kind-names.ts'
import { type Standing, standingName } from '../../../ui/state-scale.ts'

/** Beside the plan what its signs mean, with how many series stand so at the clock. */
export function PlanBoard() {
  const levelNames = () => siteDocument()?.facts.levelNames ?? []
  const levels = () => Math.max(1, levelNames().length)
  const size = () => Math.round(leastText() * 1.22)
  const standings = (): readonly Standing[] => [
    ...levelNames()
      .map((_, place) => `level-${place + 1}` as const)
      .toReversed(),
    'within',
    'no-level',
    'late',
    ...((standingSummary()?.outOfUse ?? 0) > 0 ? (['out-of-use'] as const) : []),
  ]
  const count = (standing: Standing): string => {
    const summary = standingSummary()
    if (!summary) return '?'
    if (standing === 'out-of-use') return String(summary.outOfUse)
    if (standing === 'late') return String(summary.late)
    if (standing === 'within') return String(summary.within)
    if (standing === 'no-level') return String(summary.noLevel)
    return String(summary.reached[Number(standing.slice(6)) - 1] ?? 0)
  }
  const kinds = createMemo(() => {
    const present = new Set<InstrumentKind>(shownSymbols().map(({ kind }) => kind))
    return instrumentKinds.filter((kind) => present.has(kind))
  })
  const surface = () => surfaceLayers.some(isLayerShown)
  return (
    <aside class="wall-key" aria-label="Key">
      <Show when={statesTrouble()}>{(sentence) => <p class="board-trouble">{sentence()}</p>}</Show>
      <ul aria-label="State, number of series">
        <For each={standings()}>
          {(standing) => (
            <li>
              <KindSymbol
                kind="settlement-point"
                standing={standing}
                share={standing === 'within' ? 0.6 : standing.startsWith('level-') ? 1 : null}
                partLate={false}
                levels={levels()}
                palette={palette()}
                size={size()}
              />
              <span>{standingName(standing, levelNames())}</span>
              <strong>{count(standing)}</strong>
            </li>
          )}
        </For>
        <Show when={(standingSummary()?.cameLater ?? 0) > 0}>
          <li>
            <KindSymbol
              kind="settlement-point"
              standing="unknown"
              share={null}
              partLate={false}
              cameLater={true}
              levels={levels()}
              palette={palette()}
              size={size()}
            />
            <span>{countedAtClock() === 'known' ? 'Newer value came later' : 'Value came later'}</span>
            <strong>{standingSummary()?.cameLater}</strong>
          </li>
        </Show>
        <Show when={alertMarksShown().length > 0}>
          <li>
            <AlertFrame response="nobody" palette={palette()} size={size()} />
            <span>Open alert</span>
            <strong>{alertMarksShown().reduce((sum, { alerts }) => sum + alerts.length, 0)}</strong>
          </li>
        </Show>
      </ul>
      <Show
        when={surface()}
        fallback={
          <ul class="wall-kinds" aria-label="Instruments">
            <For each={kinds()}>
              {(kind) => (
                <li>
                  <KindSymbol
                    kind={kind}
                    standing="no-level"
                    share={null}
                    partLate={false}
                    levels={levels()}
                    palette={palette()}
                    size={size()}
                  />
                  <span>{kindNames[kind]}</span>
                </li>
              )}
            </For>
          </ul>
        }
      >
        <Show when={workedSurface()} fallback={<p>{surfaceTrouble() ?? 'Contours are being worked out.'}</p>}>
          <SurfaceKey />
          <For each={asMeasured()}>{(sentence) => <p>{sentence}</p>}</For>
        </Show>
      </Show>
    </aside>
  )
}
