import { For } from 'solid-js'
import type { SensorDraft, ZeroReadingDraft } from '#domain/field/field-bodies.ts'
import { fewestZeroReadings } from '#domain/field/sensor-faults.ts'
import { type Measure, measures } from '#domain/site/vocabulary.ts'
import { fieldGuide } from '../../../state/field-guide.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { siteNowEpochMs } from '../../../state/site-now.ts'
import { measureNames } from '../../../ui/kind-names.ts'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedChoice, TypedInstant, TypedText } from '../TypedText.tsx'
import { CertificateFields } from './CertificateFields.tsx'

/** One sensor of a measuring point: what it is, what it was calibrated to be, and what it read at zero. */
export function SensorFields(props: {
  sensor: SensorDraft
  name: string
  installedAtEpochMs: number
  onChange: (sensor: SensorDraft) => void
  onRemove: () => void
}) {
  const change = (of: Partial<SensorDraft>) => props.onChange({ ...props.sensor, ...of })
  const changeZero = (at: number, of: Partial<ZeroReadingDraft>) =>
    change({ zeroReadings: props.sensor.zeroReadings.map((one, i) => (i === at ? { ...one, ...of } : one)) })
  const barometers = () =>
    (fieldGuide()?.sensors ?? [])
      .filter(({ measure }) => measure === 'barometric-pressure')
      .map(({ id }) => id)
  return (
    <fieldset class="field-group">
      <legend>Sensor {props.name}</legend>
      <div class="field-choices">
        <TypedChoice
          label="Measures"
          value={props.sensor.measure}
          options={measures.map((word) => ({ word, name: measureNames[word] }))}
          onChange={(measure: Measure) => change({ measure })}
        />
        <TypedText
          label="Serial number"
          value={props.sensor.serial}
          onChange={(serial) => change({ serial })}
        />
        <TypedText
          label="Raw unit"
          value={props.sensor.rawUnit}
          onChange={(rawUnit) => change({ rawUnit })}
        />
        <TypedText label="Engineering unit" value={props.sensor.unit} onChange={(unit) => change({ unit })} />
        <TypedNumber
          label="Range from"
          unit={props.sensor.unit}
          value={props.sensor.rangeLow}
          onChange={(rangeLow) => change({ rangeLow })}
        />
        <TypedNumber
          label="Range to"
          unit={props.sensor.unit}
          value={props.sensor.rangeHigh}
          onChange={(rangeHigh) => change({ rangeHigh })}
        />
        <TypedNumber
          label="Minutes between readings"
          value={props.sensor.intervalMinutes}
          onChange={(value) => {
            if (value !== null && value > 0) change({ intervalMinutes: value })
          }}
        />
        <TypedChoice
          label="Air pressure from"
          value={props.sensor.barometer ?? ''}
          options={[{ word: '', name: 'none' }, ...barometers().map((word) => ({ word, name: word }))]}
          onChange={(word) => change({ barometer: word === '' ? null : word })}
        />
        <TypedText
          label="Logger, where it is wired"
          value={props.sensor.wiring?.logger ?? ''}
          list={(siteDocument()?.loggers ?? []).map(({ id }) => id)}
          onChange={(logger) =>
            change({
              wiring: logger === '' ? null : { logger, channel: props.sensor.wiring?.channel ?? '1' },
            })
          }
        />
        <TypedText
          label="Channel"
          value={props.sensor.wiring?.channel ?? ''}
          onChange={(channel) => {
            if (props.sensor.wiring && channel !== '') change({ wiring: { ...props.sensor.wiring, channel } })
          }}
        />
      </div>
      <CertificateFields
        certificate={props.sensor.certificate}
        serial={props.sensor.serial}
        unit={props.sensor.unit}
        installedAtEpochMs={props.installedAtEpochMs}
        onChange={(certificate) => change({ certificate })}
      />
      <fieldset class="field-group">
        <legend>Zero readings, {fewestZeroReadings} or more</legend>
        <For each={props.sensor.zeroReadings.map((_, at) => at)}>
          {(at) => (
            <div class="field-choices">
              <TypedInstant
                label={`Zero reading ${at + 1} at`}
                value={props.sensor.zeroReadings[at]?.atEpochMs ?? null}
                onChange={(value) => {
                  if (value !== null) changeZero(at, { atEpochMs: value })
                }}
              />
              <TypedNumber
                label={`Raw value ${at + 1}`}
                unit={props.sensor.rawUnit}
                value={props.sensor.zeroReadings[at]?.raw ?? null}
                onChange={(raw) => changeZero(at, { raw })}
              />
              <TypedNumber
                label={`Temperature ${at + 1}`}
                unit="°C"
                value={props.sensor.zeroReadings[at]?.temperatureDegC ?? null}
                onChange={(temperatureDegC) => changeZero(at, { temperatureDegC })}
              />
              <TypedNumber
                label={`Air pressure ${at + 1}`}
                unit="kPa"
                value={props.sensor.zeroReadings[at]?.barometerKpa ?? null}
                onChange={(barometerKpa) => changeZero(at, { barometerKpa })}
              />
            </div>
          )}
        </For>
        <button
          type="button"
          onClick={() =>
            change({
              zeroReadings: [
                ...props.sensor.zeroReadings,
                // Read one after another: the next begins with the conditions of the one before.
                {
                  atEpochMs: siteNowEpochMs() + props.sensor.zeroReadings.length * 60_000,
                  raw: null,
                  temperatureDegC: props.sensor.zeroReadings.at(-1)?.temperatureDegC ?? null,
                  barometerKpa: props.sensor.zeroReadings.at(-1)?.barometerKpa ?? null,
                },
              ],
            })
          }
        >
          Add a zero reading
        </button>
      </fieldset>
      <button type="button" onClick={() => props.onRemove()}>
        Take sensor {props.name} out
      </button>
    </fieldset>
  )
}
