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
import { NumberField } from './NumberField.tsx'
import { createReadingsOfSeries } from './series-readings.ts'

const zeroSoughtMs = 28 * 86_400_000

/** Settlement of a point, and of those like it, by its distance from the face, whose places are stated here. */
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
  const [alike, setAlike] = createSignal(0.5)
  /** The chosen point and those about as far from the line: along an even drive they settle alike, one after the other. */
  const together = createMemo(() => {
    const on = chosen()
    return on
      ? beside().filter(
          (one) => one === on || Math.abs(one.station.offsetMetres - on.station.offsetMetres) <= alike(),
        )
      : []
  })
  const { readings, remarks, waiting } = createReadingsOfSeries(() => {
    const at = clockEpochMs()
    return at === null
      ? null
      : {
          series: together().map(({ series }) => series),
          fromEpochMs: props.of.sinceEpochMs() - zeroSoughtMs,
          untilEpochMs: at,
        }
  })
  const [stated, setStated] = createSignal<readonly FaceReport[] | null>(null)
  const faces = createMemo(() => {
    const on = props.of.alignment()
    const recorded = props.of.recorded()?.fromEpochMs ?? null
    return stated() ?? (on ? assumedFaces(on, recorded, siteDocument()?.stages ?? []) : [])
  })
  const settled = createMemo(() => {
    const read = readings()
    if (!read) return null
    return together().flatMap(({ id, series, station }) => {
      const own = read.get(series.series)
      const since = own ? settlementsSince(own, props.of.sinceEpochMs()) : null
      return since ? [settlementsByFace({ id, chainageMetres: station.chainageMetres }, since, faces())] : []
    })
  })
  const outcome = createMemo(() => {
    const known = settled()
    return stated() !== null && known && known.length > 0 ? fitLongitudinalTrough(known.flat()) : null
  })
  const names = () =>
    together().length > 1 ? `${together().length} points like ${chosen()?.id}` : chosen()?.id
  return (
    <section class="ground-part" aria-label="As the face went by">
      <h4>As the face went by</h4>
      <div class="ground-fields">
        <label class="ground-field ground-field-wide">
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
        <NumberField
          name="With points of its offset, within"
          unit="m"
          value={alike()}
          least={0}
          onChange={setAlike}
        />
      </div>
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
          ? 'The records hold no places of the face. Those above only assume that it went evenly from end to end of the line as drawn while its stage lasted: correct them. Nothing is worked out before they are stated, for a face misplaced by a few metres misplaces the whole curve. '
          : 'Straight between the places stated. '}
        What is stated here is not kept: it is gone when this analysis is left.
        {together().length > 1
          ? ` ${together()
              .map(({ id }) => id)
              .join(
                ', ',
              )} stand together: taken to settle alike as the face goes by, whatever else moves the ground at one of them.`
          : ''}
      </p>
      <Show when={stated() === null}>
        <button type="button" class="ground-confirm" onClick={() => setStated(faces())}>
          The face stood there
        </button>
      </Show>
      <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={outcome()}
        keyed
        fallback={
          <p class="waiting">
            {stated() === null
              ? 'State where the face stood.'
              : waiting()
                ? 'Asking for readings …'
                : settled()?.length === 0
                  ? 'No point of these has a reading in the 28 days before the settlement is counted: choose a later start.'
                  : 'No readings.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={[
              longitudinalFigure(found, {
                title: `${names()}: settlement since ${formatShortInstant(props.of.sinceEpochMs(), zone())} by distance from the face`,
                selected: null,
                timeZone: zone(),
              }),
            ]}
            accounts={found.ok ? [{ heading: 'Along the drive', account: found.value }] : []}
            nameOf={(reading: AdvanceReading) =>
              reading.aheadOfFaceMetres === null
                ? reading.id
                : `${reading.id} at ${formatValue(reading.aheadOfFaceMetres, 1)} m`
            }
          />
        )}
      </Show>
    </section>
  )
}
