import { For, Show } from 'solid-js'
import type { InstallationBody, PointDraft } from '#domain/field/field-bodies.ts'
import { tipOf } from '#domain/field/installation-tips.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatValue } from '../../../ui/format-value.ts'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedText } from '../TypedText.tsx'
import { emptySensor } from './empty-installation.ts'
import { SensorFields } from './SensorFields.tsx'

/** One measuring point of an installation; where it comes to lie is worked out at once. */
export function PointFields(props: {
  body: InstallationBody
  point: PointDraft
  onChange: (point: PointDraft) => void
  onRemove: () => void
}) {
  const change = (of: Partial<PointDraft>) => props.onChange({ ...props.point, ...of })
  const tip = () => tipOf(props.body, props.point)
  const strata = () => [...new Set((siteDocument()?.strata ?? []).map(({ stratum }) => stratum))]
  const orNull = (text: string) => (text.trim() === '' ? null : text)
  return (
    <fieldset class="field-group">
      <legend>Measuring point {props.point.id}</legend>
      <div class="field-choices">
        <TypedText label="Name" value={props.point.id} onChange={(id) => change({ id })} />
        <TypedNumber
          label="Depth along the hole"
          unit="m"
          value={props.point.depthMetres === 0 ? null : props.point.depthMetres}
          onChange={(value) => change({ depthMetres: Math.max(0, value ?? 0) })}
        />
        <TypedNumber
          label="Gauge length"
          unit="m"
          value={props.point.gaugeLengthMetres}
          onChange={(gaugeLengthMetres) => change({ gaugeLengthMetres })}
        />
        <TypedNumber
          label="Intake zone, level of its top"
          unit="m"
          value={props.point.intakeTopLevelMetres}
          onChange={(intakeTopLevelMetres) => change({ intakeTopLevelMetres })}
        />
        <TypedNumber
          label="Intake zone, level of its base"
          unit="m"
          value={props.point.intakeBaseLevelMetres}
          onChange={(intakeBaseLevelMetres) => change({ intakeBaseLevelMetres })}
        />
        <TypedText
          label="Stratum"
          value={props.point.stratum ?? ''}
          list={strata()}
          onChange={(text) => change({ stratum: orNull(text) })}
        />
      </div>
      <p role="status">
        <Show when={tip()} fallback="Its place comes out once the collar is known.">
          {(at) => (
            <>
              Lies at E {at().eastingMetres.toFixed(3)}, N {at().northingMetres.toFixed(3)}, level{' '}
              {formatValue(at().levelMetres, 3)} m, by a straight hole.
            </>
          )}
        </Show>
      </p>
      <For each={props.point.sensors.map((_, at) => at)}>
        {(at) => (
          <SensorFields
            sensor={props.point.sensors[at] ?? emptySensor}
            name={`${props.point.id}/${props.point.sensors[at]?.measure ?? ''}`}
            installedAtEpochMs={props.body.installedAtEpochMs}
            onChange={(sensor) =>
              change({ sensors: props.point.sensors.map((one, i) => (i === at ? sensor : one)) })
            }
            onRemove={() => change({ sensors: props.point.sensors.filter((_, i) => i !== at) })}
          />
        )}
      </For>
      <div class="field-row">
        <button type="button" onClick={() => change({ sensors: [...props.point.sensors, emptySensor] })}>
          Add a sensor to {props.point.id}
        </button>
        <button type="button" onClick={() => props.onRemove()}>
          Take {props.point.id} out
        </button>
      </div>
    </fieldset>
  )
}
