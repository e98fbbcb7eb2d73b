import { For, Show } from 'solid-js'
import type { CertificateDraft } from '#domain/field/field-bodies.ts'
import { stepParameters } from '#domain/reduction/step-parameters.ts'
import { type StepKind, stepKinds } from '#domain/site/vocabulary.ts'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedInstant, TypedText } from '../TypedText.tsx'

/** What a calibration certificate says, step by step as the site's records have it. */
export function CertificateFields(props: {
  certificate: CertificateDraft | null
  serial: string
  unit: string
  installedAtEpochMs: number
  onChange: (certificate: CertificateDraft | null) => void
}) {
  const begin = () =>
    props.onChange({
      number: '',
      serial: '',
      calibratedAtEpochMs: props.installedAtEpochMs,
      dueAtEpochMs: null,
      standardUncertainty: 0,
      steps: [{ kind: 'linear', parameters: `factor=; offset=; unit=${props.unit}` }],
    })
  return (
    <Show
      when={props.certificate}
      fallback={
        <button type="button" onClick={begin}>
          Enter its certificate
        </button>
      }
    >
      {(certificate) => {
        const change = (of: Partial<CertificateDraft>) => props.onChange({ ...certificate(), ...of })
        const changeStep = (at: number, step: CertificateDraft['steps'][number]) =>
          change({ steps: certificate().steps.map((one, i) => (i === at ? step : one)) })
        return (
          <fieldset class="field-group">
            <legend>Calibration certificate</legend>
            <div class="field-choices">
              <TypedText
                label="Certificate number"
                value={certificate().number}
                onChange={(number) => change({ number })}
              />
              <TypedText
                label="Serial number as it stands on the certificate"
                value={certificate().serial}
                onChange={(serial) => change({ serial })}
              />
              <TypedInstant
                label="Calibrated at"
                value={certificate().calibratedAtEpochMs}
                onChange={(at) => {
                  if (at !== null) change({ calibratedAtEpochMs: at })
                }}
              />
              <TypedInstant
                label="Next calibration due"
                value={certificate().dueAtEpochMs}
                onChange={(dueAtEpochMs) => change({ dueAtEpochMs })}
              />
              <TypedNumber
                label="Standard uncertainty"
                unit={props.unit}
                value={certificate().standardUncertainty}
                onChange={(value) => change({ standardUncertainty: value ?? 0 })}
              />
            </div>
            <ol class="field-steps">
              <For each={certificate().steps.map((_, at) => at)}>
                {(at) => {
                  const step = () => certificate().steps[at] ?? { kind: 'linear' as StepKind, parameters: '' }
                  return (
                    <li>
                      <label>
                        Step {at + 1}
                        <select
                          value={step().kind}
                          onChange={(event) => {
                            const kind = event.currentTarget.value as StepKind
                            changeStep(at, { kind, parameters: blankParameters(kind) })
                          }}
                        >
                          <For each={stepKinds}>{(kind) => <option value={kind}>{kind}</option>}</For>
                        </select>
                      </label>
                      <code>{stepParameters[step().kind].formula}</code>
                      <TypedText
                        label={`Values of step ${at + 1}, name=value; …`}
                        value={step().parameters}
                        onChange={(parameters) => changeStep(at, { kind: step().kind, parameters })}
                      />
                      <button
                        type="button"
                        onClick={() => change({ steps: certificate().steps.filter((_, i) => i !== at) })}
                      >
                        Take out step {at + 1}
                      </button>
                    </li>
                  )
                }}
              </For>
            </ol>
            <button
              type="button"
              onClick={() =>
                change({
                  steps: [...certificate().steps, { kind: 'linear', parameters: blankParameters('linear') }],
                })
              }
            >
              Add a step
            </button>
          </fieldset>
        )
      }}
    </Show>
  )
}

function blankParameters(kind: StepKind): string {
  const { numbers, texts, optional = {} } = stepParameters[kind]
  return [...numbers, ...texts]
    .filter((name) => !(name in optional))
    .map((name) => `${name}=`)
    .join('; ')
}
