import { For, Show } from 'solid-js'
import type { AdvanceReading } from '#domain/ground/troughs/fit-longitudinal.ts'
import { longitudinalFigure } from '../../derived/figures/longitudinal-figure.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue } from '../../ui/format-value.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import type { DriveOfPanel } from './drive-of-panel.ts'
import { FaceFields } from './FaceFields.tsx'
import { createLongitudinal } from './longitudinal-of-panel.ts'
import { NumberField } from './NumberField.tsx'

/** Settlement of a point, and of those like it, by its distance from the face, whose places are stated here. */
export function LongitudinalAnalysis(props: { of: DriveOfPanel }) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const of = createLongitudinal(props.of)
  return (
    <section class="ground-part" aria-label="As the face went by">
      <h2>As the face went by</h2>
      <div class="ground-fields">
        <label class="ground-field ground-field-wide">
          Point
          <select value={of.chosen()?.id ?? ''} onChange={(event) => of.choose(event.currentTarget.value)}>
            <For each={of.beside()}>
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
          value={of.alike()}
          least={0}
          onChange={of.setAlike}
        />
      </div>
      <FaceFields
        faces={of.faces()}
        fallback={{
          atEpochMs: props.of.sinceEpochMs(),
          chainageMetres: props.of.alignment()?.startChainageMetres ?? 0,
        }}
        onChange={of.setStated}
      />
      <p class="waiting">
        {of.stated() === null
          ? 'The records hold no places of the face. Those above only assume that it went evenly from end to end of the line as drawn while its stage lasted: correct them. Nothing is worked out before they are stated, for a face misplaced by a few metres misplaces the whole curve. '
          : 'Straight between the places stated. '}
        What is stated here is not kept: it is gone when this analysis is left.
        {of.together().length > 1
          ? ` ${of
              .together()
              .map(({ id }) => id)
              .join(
                ', ',
              )} stand together: taken to settle alike as the face goes by, whatever else moves the ground at one of them.`
          : ''}
      </p>
      <Show when={of.stated() === null}>
        <button type="button" class="ground-confirm" onClick={() => of.setStated(of.faces())}>
          The face stood there
        </button>
      </Show>
      <For each={of.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show
        when={of.outcome()}
        keyed
        fallback={
          <p class="waiting">
            {of.stated() === null
              ? 'State where the face stood.'
              : of.waiting()
                ? 'Asking for readings …'
                : of.settled()?.length === 0
                  ? 'No point of these has a reading in the 28 days before the settlement is counted: choose a later start.'
                  : 'No readings.'}
          </p>
        }
      >
        {(found) => (
          <AnalysisResult
            figures={[
              longitudinalFigure(found, {
                title: `${of.names()}: settlement since ${formatShortInstant(props.of.sinceEpochMs(), zone())} by distance from the face`,
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
