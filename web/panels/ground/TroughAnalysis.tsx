import { createMemo, createSignal, For, Show } from 'solid-js'
import { troughAcross } from '#domain/ground/troughs/trough-across.ts'
import type { TroughPoint } from '#domain/ground/troughs/trough-point.ts'
import { troughFigure } from '../../derived/figures/trough-figure.ts'
import { busiestChainage } from '../../derived/ground/alignment-of-drive.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { DriveFields } from './DriveFields.tsx'
import { createDrive } from './drive-of-panel.ts'
import { NumberField } from './NumberField.tsx'
import { WidthWithDepth } from './WidthWithDepth.tsx'

/** The settlement trough across a tunnel at the clock: measured, fitted, and as it was expected. */
export function TroughAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const tunnel = createDrive()
  const [within, setWithin] = createSignal(6)
  const [chainage, setChainage] = createSignal<number | null>(null)
  const chainageMetres = createMemo(() => {
    const [on, points] = [tunnel.alignment(), tunnel.points()]
    return chainage() ?? (on && points ? (busiestChainage(on, points, within()) ?? 0) : 0)
  })
  const [held, setHeld] = createSignal(false)
  const outcome = createMemo(() => {
    const [on, places] = [tunnel.alignment(), tunnel.places()]
    if (!on || !places) return null
    return troughAcross(places, (point) => on.stationOf(point), {
      chainageMetres: chainageMetres(),
      withinMetres: within(),
      pointDepthMetres: 0,
      drive: tunnel.drive(),
      ...(held() ? { centreHeldAtMetres: 0 } : {}),
    })
  })
  const figure = createMemo(() => {
    const found = outcome()
    const [on, at] = [tunnel.alignment(), clockEpochMs()]
    if (!found || !on || at === null) return null
    return troughFigure(found, {
      title: `${on.name}, chainage ${chainageMetres()} m: settlement from ${formatShortInstant(tunnel.sinceEpochMs(), zone())} to ${formatShortInstant(at, zone())}`,
      selected: selectedPoint()?.id ?? null,
      timeZone: zone(),
    })
  })
  const account = () => {
    const found = outcome()
    return found?.ok ? [{ heading: 'Trough', account: found.value.fitted }] : []
  }
  return (
    <Show
      when={tunnel.alignment()}
      fallback={<p class="waiting">The works have no tunnel or other line along which chainage is told.</p>}
    >
      <DriveFields of={tunnel}>
        <NumberField name="Chainage" unit="m" value={chainageMetres()} onChange={setChainage} />
        <NumberField name="Points within" unit="m" value={within()} least={0.5} onChange={setWithin} />
      </DriveFields>
      <label class="key-row">
        <input type="checkbox" checked={held()} onChange={(event) => setHeld(event.currentTarget.checked)} />
        <span>Middle held on the line</span>
      </label>
      <For each={tunnel.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={figure()}
        fallback={<p class="waiting">{tunnel.waiting() ? 'Asking for settlements …' : 'Nothing to draw.'}</p>}
      >
        {(shown) => (
          <AnalysisResult
            figures={[shown()]}
            accounts={account()}
            nameOf={(point: TroughPoint) => point.id}
          />
        )}
      </Show>
      <WidthWithDepth
        of={tunnel}
        chainageMetres={chainageMetres()}
        withinMetres={within()}
        times={`from ${formatShortInstant(tunnel.sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`}
      />
    </Show>
  )
}
