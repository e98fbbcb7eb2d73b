import { createMemo, createSignal, For, Show } from 'solid-js'
import { troughAcross } from '#domain/ground/troughs/trough-across.ts'
import type { TroughPoint } from '#domain/ground/troughs/trough-point.ts'
import { troughFigure } from '../../derived/figures/trough-figure.ts'
import { busiestChainage, recordedDrive } from '../../derived/ground/alignment-of-drive.ts'
import { siteAlignments } from '../../state/alignments.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'
import { createSettledPlaces } from './settled-places.ts'

/** The settlement trough across a tunnel at the clock: measured, fitted, and as it was expected. */
export function TroughAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const [chosen, setChosen] = createSignal<string | null>(null)
  const alignment = () => siteAlignments().find(({ id }) => id === chosen()) ?? siteAlignments()[0] ?? null
  const recorded = createMemo(() => {
    const [document, on] = [siteDocument(), alignment()]
    return document && on ? recordedDrive(document.works, on.id, document.facts.groundLevelMetres ?? 0) : null
  })
  const [since, setSince] = createSignal<number | null>(null)
  const sinceEpochMs = () => since() ?? recorded()?.fromEpochMs ?? (clockEpochMs() ?? 0) - 28 * 86_400_000
  const { places, remarks, waiting } = createSettledPlaces(sinceEpochMs)
  const [within, setWithin] = createSignal(6)
  const [chainage, setChainage] = createSignal<number | null>(null)
  const chainageMetres = createMemo(() => {
    const [on, points] = [alignment(), places()]
    return chainage() ?? (on && points ? (busiestChainage(on, points, within()) ?? 0) : 0)
  })
  const [diameter, setDiameter] = createSignal<number | null>(null)
  const [axisDepth, setAxisDepth] = createSignal<number | null>(null)
  const [loss, setLoss] = createSignal(1)
  const [widthParameter, setWidthParameter] = createSignal(0.5)
  const [held, setHeld] = createSignal(false)
  const [reach, setReach] = createSignal<number | null>(null)
  /** Three widths of the expected trough: farther out, what settles settles by other works. */
  const reachMetres = () => reach() ?? Math.ceil(3 * widthParameter() * drive().axisDepthMetres)
  const drive = () => ({
    diameterMetres: diameter() ?? recorded()?.diameterMetres ?? 3,
    axisDepthMetres: axisDepth() ?? recorded()?.axisDepthMetres ?? 10,
    volumeLoss: loss() / 100,
    widthParameter: widthParameter(),
  })
  const outcome = createMemo(() => {
    const [on, points] = [alignment(), places()]
    if (!on || !points) return null
    const near = points.filter(({ eastingMetres, northingMetres }) => {
      const station = on.stationOf([eastingMetres, northingMetres])
      return station !== null && Math.abs(station.offsetMetres) <= reachMetres()
    })
    return troughAcross(
      near.map((point) => ({
        id: point.id,
        eastingMetres: point.eastingMetres,
        northingMetres: point.northingMetres,
        depthMetres: 0,
        settlementMm: point.valueMm,
        standardUncertaintyMm: point.standardUncertaintyMm,
        late: point.late,
      })),
      (point) => on.stationOf(point),
      {
        chainageMetres: chainageMetres(),
        withinMetres: within(),
        pointDepthMetres: 0,
        drive: drive(),
        ...(held() ? { centreHeldAtMetres: 0 } : {}),
      },
    )
  })
  const figure = createMemo(() => {
    const found = outcome()
    const [on, at] = [alignment(), clockEpochMs()]
    if (!found || !on || at === null) return null
    return troughFigure(found, {
      title: `${on.name}, chainage ${chainageMetres()} m: settlement from ${formatShortInstant(sinceEpochMs(), zone())} to ${formatShortInstant(at, zone())}`,
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
      when={alignment()}
      fallback={<p class="waiting">The works have no tunnel or other line along which chainage is told.</p>}
    >
      <div class="ground-fields">
        <Show when={siteAlignments().length > 1}>
          <label class="ground-field">
            Along
            <select value={alignment()?.id} onChange={(event) => setChosen(event.currentTarget.value)}>
              <For each={siteAlignments()}>{(one) => <option value={one.id}>{one.name}</option>}</For>
            </select>
          </label>
        </Show>
        <SinceField name="Settlement since" atEpochMs={sinceEpochMs()} onChange={setSince} />
        <NumberField name="Chainage" unit="m" value={chainageMetres()} onChange={setChainage} />
        <NumberField name="Points within" unit="m" value={within()} least={0.5} onChange={setWithin} />
        <NumberField name="Offsets to" unit="m" value={reachMetres()} least={1} onChange={setReach} />
        <NumberField
          name="Face diameter"
          unit="m"
          value={drive().diameterMetres}
          least={0.1}
          onChange={setDiameter}
        />
        <NumberField
          name="Axis below ground"
          unit="m"
          value={drive().axisDepthMetres}
          least={0.1}
          onChange={setAxisDepth}
        />
        <NumberField
          name="Expected volume loss"
          unit="%"
          value={loss()}
          least={0}
          most={100}
          onChange={setLoss}
        />
        <NumberField
          name="Expected K"
          unit=""
          value={widthParameter()}
          least={0.05}
          most={2}
          onChange={setWidthParameter}
        />
        <label class="key-row">
          <input
            type="checkbox"
            checked={held()}
            onChange={(event) => setHeld(event.currentTarget.checked)}
          />
          <span>Middle held on the line</span>
        </label>
      </div>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={figure()}
        fallback={<p class="waiting">{waiting() ? 'Asking for settlements …' : 'Nothing to draw.'}</p>}
      >
        {(shown) => (
          <AnalysisResult
            figures={[shown()]}
            accounts={account()}
            nameOf={(point: TroughPoint) => point.id}
          />
        )}
      </Show>
    </Show>
  )
}
