import { createMemo, createSignal, For, Show } from 'solid-js'
import type { FaceReport } from '#domain/ground/troughs/face-reports.ts'
import { type AdvanceReading, fitLongitudinalTrough } from '#domain/ground/troughs/fit-longitudinal.ts'
import { longitudinalFigure } from '../../derived/figures/longitudinal-figure.ts'
import { assumedFaces, settlementsByFace, settlementsSince } from '../../derived/ground/face-places.ts'
import { pointsBesideLine } from '../../derived/ground/settled-places.ts'
import { settlementSeries } from '../../derived/settlement-points.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import type { DriveOfPanel } from './drive-of-panel.ts'
import { FaceFields } from './FaceFields.tsx'
import { createSeriesReadings } from './series-readings.ts'

const zeroSoughtMs = 28 * 86_400_000

/** Settlement of one point by its distance from the face, whose places are stated here. */
export function LongitudinalAnalysis(props: { of: DriveOfPanel }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const beside = createMemo(() => {
    const document = siteDocument()
    const series = document ? settlementSeries(document.series, document.points) : []
    const on = props.of.alignment()
    return on ? pointsBesideLine(props.of.places() ?? [], series, on.stationOf) : []
  })
  const [wanted, choose] = createSignal<string | null>(null)
  const chosen = createMemo(() => {
    const id = wanted() ?? selectedPoint()?.id
    return beside().find((one) => one.id === id) ?? beside()[0] ?? null
  })
  const series = () => chosen()?.series ?? null
  const { readings, remarks, waiting } = createSeriesReadings(() => {
    const [on, at] = [series(), clockEpochMs()]
    return on && at !== null
      ? { series: on, fromEpochMs: props.of.sinceEpochMs() - zeroSoughtMs, untilEpochMs: at }
      : null
  })
  const [stated, setStated] = createSignal<readonly FaceReport[] | null>(null)
  const faces = createMemo(() => {
    const on = props.of.alignment()
    const recorded = props.of.recorded()?.fromEpochMs ?? null
    return stated() ?? (on ? assumedFaces(on, recorded, siteDocument()?.stages ?? []) : [])
  })
  const settled = createMemo(() => {
    const read = readings()
    return read && settlementsSince(read, props.of.sinceEpochMs())
  })
  const outcome = createMemo(() => {
    const [on, moved] = [chosen(), settled()]
    if (!on || !moved) return null
    const point = { id: on.id, chainageMetres: on.station.chainageMetres }
    return fitLongitudinalTrough(settlementsByFace(point, moved, faces()))
  })
  return (
    <section class="ground-part" aria-label="As the face went by">
      <h4>As the face went by</h4>
      <label class="ground-field">
        Point
        <select value={chosen()?.id ?? ''} onChange={(event) => choose(event.currentTarget.value)}>
          <For each={beside()}>
            {({ id, station }) => (
              <option value={id}>
                {id}, chainage {formatValue(station.chainageMetres, 0)} m, offset{' '}
                {formatValue(station.offsetMetres, 1)} m
              </option>
            )}
          </For>
        </select>
      </label>
      <FaceFields
        faces={faces()}
        fallback={{
          atEpochMs: props.of.sinceEpochMs(),
          chainageMetres: props.of.alignment()?.startChainageMetres ?? 0,
        }}
        onChange={setStated}
      />
      <p class="waiting">
        {stated() === null
          ? 'The records hold no places of the face. Assumed: driven evenly from end to end of the line as drawn, while its stage lasts. Distances, lag and share at the face are no better than that: state where the face stood. '
          : 'Straight between the places stated. '}
        What is stated here is not kept: it is gone when this analysis is left.
      </p>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={outcome()}
        keyed
        fallback={
          <p class="waiting">
            {waiting()
              ? 'Asking for readings …'
              : readings() !== null && settled() === null
                ? 'The point has no reading in the 28 days before the settlement is counted: choose a later start.'
                : 'No readings.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={[
              longitudinalFigure(found, {
                title: `${chosen()?.id}: settlement since ${formatShortInstant(props.of.sinceEpochMs(), zone())} by distance from the face${stated() === null ? ', assumed' : ''}`,
                selected: null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.ok ? [{ heading: 'Along the drive', account: found.value }] : []}
            nameOf={(reading: AdvanceReading) =>
              reading.aheadOfFaceMetres === null
                ? 'A reading while the face’s place is not known'
                : `${formatValue(reading.aheadOfFaceMetres, 1)} m ahead`
            }
          />
        )}
      </Show>
    </section>
  )
}
