import { createMemo, createSignal, For, Show } from 'solid-js'
import { gaussianTrough } from '#domain/ground/trough.ts'
import { type PlaceAlong, settlementAlong } from '#domain/ground/troughs/settlement-along.ts'
import type { TroughPoint } from '#domain/ground/troughs/trough-point.ts'
import { troughsAlong } from '#domain/ground/troughs/troughs-along.ts'
import { predictionsInForce } from '#domain/levels/predictions-in-force.ts'
import { settlementAlongFigure } from '../../derived/figures/settlement-along-figure.ts'
import { volumeLossFigure } from '../../derived/figures/volume-loss-figure.ts'
import { busiestChainage } from '../../derived/ground/alignment-of-drive.ts'
import { firstStripMetres } from '../../derived/ground/face-places.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { DriveFields } from './DriveFields.tsx'
import { createDrive } from './drive-of-panel.ts'
import { LongitudinalAnalysis } from './LongitudinalAnalysis.tsx'
import { NumberField } from './NumberField.tsx'

/** Volume loss by chainage of a tunnel at the clock, and how a point settled as the face went by. */
export function DriveAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const tunnel = createDrive()
  const [step, setStep] = createSignal(12)
  const [from, setFrom] = createSignal<number | null>(null)
  const [until, setUntil] = createSignal<number | null>(null)
  const along = createMemo(() => {
    const [on, points] = [tunnel.alignment(), tunnel.points()]
    if (!on) return null
    const { startChainageMetres: start, lengthMetres } = on
    const busiest = points ? busiestChainage(on, points, step() / 2) : null
    return {
      fromMetres: from() ?? firstStripMetres(start, busiest ?? start + step() / 2, step()),
      untilMetres: until() ?? Math.round(100 * (start + lengthMetres)) / 100,
      stepMetres: step(),
    }
  })
  const troughs = createMemo(() => {
    const [on, places, strips] = [tunnel.alignment(), tunnel.places(), along()]
    return on && places && strips
      ? troughsAlong(places, (point) => on.stationOf(point), strips, {
          pointDepthMetres: 0,
          drive: tunnel.drive(),
        })
      : null
  })
  const [wantedOffset, setOffset] = createSignal<number | null>(null)
  /** One width of the expected trough. */
  const offsetMetres = () => wantedOffset() ?? Math.ceil(gaussianTrough(tunnel.drive()).widthMetres)
  const settled = createMemo(() => {
    const [on, places] = [tunnel.alignment(), tunnel.places()]
    return on && places
      ? settlementAlong(places, (point) => on.stationOf(point), {
          drive: tunnel.drive(),
          withinMetres: offsetMetres(),
        })
      : null
  })
  const expectedOf = (id: string) => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    const instrument = document?.points.find((point) => point.id === id)?.instrument
    if (!document || at === null || instrument === undefined) return null
    const found = predictionsInForce(document.predictions, document.stages, {
      instrument,
      measure: 'settlement',
      atEpochMs: at,
    })
    const own = found?.predictions.find(({ depthMetres }) => depthMetres === null || depthMetres === 0)
    return found && own
      ? { low: own.low, high: own.high, stage: `by the end of “${found.stage.name}”` }
      : null
  }
  const alongAccount = () => {
    const found = settled()
    return found?.ok ? [{ heading: 'Along the alignment', account: found.value }] : []
  }
  const times = () =>
    `from ${formatShortInstant(tunnel.sinceEpochMs(), zone())} to ${formatShortInstant(clockEpochMs() ?? 0, zone())}`
  return (
    <Show
      when={tunnel.alignment()}
      fallback={<p class="waiting">The works have no tunnel or other line along which chainage is told.</p>}
    >
      <DriveFields of={tunnel}>
        <NumberField name="From chainage" unit="m" value={along()?.fromMetres ?? 0} onChange={setFrom} />
        <NumberField name="To chainage" unit="m" value={along()?.untilMetres ?? 0} onChange={setUntil} />
        <NumberField name="In strips of" unit="m" value={step()} least={1} onChange={setStep} />
      </DriveFields>
      <For each={tunnel.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={settled()}>
        {(found) => (
          <section class="ground-part" aria-label="Measured against predicted along the alignment">
            <h2>Measured against predicted along the alignment</h2>
            <div class="ground-fields">
              <NumberField
                name="Points to offset"
                unit="m"
                value={offsetMetres()}
                least={0.5}
                onChange={setOffset}
              />
            </div>
            <AnalysisResult
              figures={[
                settlementAlongFigure(found(), expectedOf, {
                  title: `${tunnel.alignment()?.name}: settlement along chainage, ${times()}`,
                  selected: selectedPoint()?.id ?? null,
                  timeZone: zone(),
                }),
              ]}
              accounts={alongAccount()}
              nameOf={(point: PlaceAlong) => point.id}
            />
          </section>
        )}
      </Show>
      <Show
        when={troughs()}
        keyed
        fallback={
          <p class="waiting">
            {tunnel.waiting() ? 'Asking for settlements …' : 'No settlement is measured.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={[
              volumeLossFigure(found, tunnel.drive().volumeLoss, {
                title: `${tunnel.alignment()?.name}: volume loss by chainage, ${times()}`,
                selected: null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.flatMap(({ chainageMetres, trough }) =>
              trough.ok
                ? [{ heading: `Chainage ${formatValue(chainageMetres, 0)} m`, account: trough.value.fitted }]
                : [],
            )}
            nameOf={(point: TroughPoint) => point.id}
          />
        )}
      </Show>
      <LongitudinalAnalysis of={tunnel} />
    </Show>
  )
}
