import { createSignal, For, onMount, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { CalibrationPreview } from '#contract/calibration-preview.ts'
import type { Series } from '#contract/site-document.ts'
import { sendServer } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { rememberedName } from '../state/own-name.ts'
import { watchPublishing } from '../state/publishing.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { withUnit } from '../ui/format-value.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { type AirShareProposal, withAirShare } from './air-share-draft.ts'
import { CalibrationEffect } from './CalibrationEffect.tsx'
import { CalibrationStep } from './CalibrationStep.tsx'
import {
  type CalibrationFields,
  draftOfFields,
  fieldsOfVersion,
  placeOfIssue,
  type StepFields,
} from './calibration-fields.ts'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { LineField } from './signed/LineField.tsx'

/** A new version to draft, look at and save. It is saved only as it was looked at. */
export function CalibrationForm(props: {
  series: Series
  list: CalibrationList
  /** What an estimate proposes; it is filled in, looked at and changed like anything else. */
  proposal: AirShareProposal | null
  zone: string
  saved: () => void
  leave: () => void
}) {
  const last = () => props.list.versions.at(-1) ?? null
  const begun = fieldsOfVersion(last(), clockEpochMs() ?? 0, props.zone, rememberedName())
  const [fields, setFields] = createSignal<CalibrationFields>(
    props.proposal ? withAirShare(begun, props.proposal) : begun,
  )
  const [working, setWorking] = createSignal<string | null>(null)
  const [looked, setLooked] = createSignal<{ draft: string; preview: CalibrationPreview } | null>(null)
  const change = (some: Partial<CalibrationFields>) => setFields({ ...fields(), ...some })
  const form = createSignedForm<string>(placeOfIssue, [() => fields().author, (author) => change({ author })])
  const { faults, idOf } = form
  const draft = () =>
    draftOfFields(
      { ...fields(), author: form.author() },
      props.list.sensor,
      last()?.row.version ?? 0,
      props.zone,
    )
  const draftText = () => JSON.stringify(draft())
  /** What was looked at, while the form still says the same. */
  const effect = () => {
    const seen = looked()
    return seen?.draft === draftText() ? seen.preview : null
  }
  const path = (part = '') => sitePath(siteDocument()?.facts.id ?? '', `/calibrations${part}`)
  const changeStep = (index: number, step: StepFields) =>
    change({ steps: fields().steps.map((one, at) => (at === index ? step : one)) })

  const askEffect = latestOnly((content: unknown, signal: AbortSignal) =>
    sendServer<CalibrationPreview>(path('/preview'), content, signal),
  )
  const look = async () => {
    const asked = draftText()
    setWorking('Working out every reading of it with the draft …')
    try {
      const preview = await askEffect(draft())
      if (preview) setLooked({ draft: asked, preview })
    } finally {
      setWorking(null)
    }
  }
  const save = async () => {
    setWorking('Saving the version …')
    try {
      await sendServer(path(), draft())
      announce(`Version ${(last()?.row.version ?? 0) + 1} of ${props.list.sensor} is saved`)
      void watchPublishing(siteDocument()?.facts.id ?? '')
      props.saved()
    } finally {
      setWorking(null)
    }
  }

  onMount(() => {
    if (props.proposal) document.getElementById(idOf('validFrom'))?.focus()
  })
  type LineOfForm = Exclude<keyof CalibrationFields, 'steps' | 'author'>
  const field = (
    place: LineOfForm,
    label: string,
    type: 'text' | 'date' | 'datetime-local',
    hint?: string,
    needed = true,
  ) => (
    <LineField
      form={form}
      field={place}
      label={label}
      type={type}
      hint={hint}
      mayBeEmpty={!needed}
      value={fields()[place]}
      write={(text) => change({ [place]: text })}
    />
  )

  return (
    <form class="calibration-form" onSubmit={form.submits(look)} aria-label="Draft of a calibration">
      <fieldset>
        <legend>Version {(last()?.row.version ?? 0) + 1}</legend>
        {field('validFrom', 'Holds from', 'datetime-local', `site time, ${props.zone}`)}
        {field('certificate', 'Certificate', 'text', undefined, false)}
        {field('calibratedAt', 'Calibrated on', 'date', undefined, false)}
        {field('dueAt', 'Due again', 'date', undefined, false)}
        {field(
          'standardUncertainty',
          'Standard uncertainty',
          'text',
          `in ${withUnit('', props.list.unit).trim()}`,
        )}
      </fieldset>
      <fieldset id={idOf('steps')} tabindex="-1">
        <legend>
          Chain from {withUnit('', props.list.rawUnit).trim()} to {withUnit('', props.list.unit).trim()}
        </legend>
        {faults.textAt('steps')}
        <ol class="chain-steps">
          <For each={fields().steps.map((_, index) => index)}>
            {(index) => (
              <CalibrationStep
                place={idOf(`steps.${index}`)}
                number={index + 1}
                step={() => fields().steps[index] as StepFields}
                fault={() => faults.messagesAt(`steps.${index}`)}
                change={(step) => changeStep(index, step)}
                remove={() => change({ steps: fields().steps.filter((_, at) => at !== index) })}
                up={() => {
                  const steps = [...fields().steps]
                  steps.splice(index - 1, 0, ...steps.splice(index, 1))
                  change({ steps })
                }}
              />
            )}
          </For>
        </ol>
        <div class="buttons">
          <button
            type="button"
            onClick={() => change({ steps: [...fields().steps, { kind: 'zero', values: {} }] })}
          >
            Add a step
          </button>
        </div>
      </fieldset>
      <fieldset>
        <legend>Who and why</legend>
        <AuthorField form={form} />
        {field('reason', 'Why this version is needed', 'text', 'it is kept with the version for good')}
      </fieldset>
      {faults.summary()}
      <Show when={working()}>{(sentence) => <p class="waiting">{sentence()}</p>}</Show>
      <div class="buttons">
        <button type="submit" classList={{ primary: effect() === null }}>
          Look at what it would change
        </button>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
      <Show when={effect()}>
        {(preview) => (
          <CalibrationEffect
            series={props.series}
            preview={preview()}
            validFromEpochMs={draft().validFromEpochMs}
          >
            <WhenAllowed to="change-records">
              <div class="buttons">
                <button
                  type="button"
                  class="primary"
                  disabled={working() !== null}
                  onClick={() => void form.send(save)}
                >
                  Save as version {(last()?.row.version ?? 0) + 1}
                </button>
              </div>
            </WhenAllowed>
          </CalibrationEffect>
        )}
      </Show>
    </form>
  )
}
