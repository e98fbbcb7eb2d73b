import { createSignal, createUniqueId, For, type JSX, onMount, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { CalibrationPreview } from '#contract/calibration-preview.ts'
import type { Series } from '#contract/site-document.ts'
import { ServerRefused, sendServer, sentenceOf } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { rememberedName, rememberName } from '../state/own-name.ts'
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

interface Fault {
  readonly place: string | null
  readonly message: string
}

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
  const [faults, setFaults] = createSignal<readonly Fault[]>([])
  const [working, setWorking] = createSignal<string | null>(null)
  const [looked, setLooked] = createSignal<{ draft: string; preview: CalibrationPreview } | null>(null)
  const form = createUniqueId()
  const draft = () => draftOfFields(fields(), props.list.sensor, last()?.row.version ?? 0, props.zone)
  const draftText = () => JSON.stringify(draft())
  /** What was looked at, while the form still says the same. */
  const effect = () => {
    const seen = looked()
    return seen?.draft === draftText() ? seen.preview : null
  }
  const path = (part = '') => sitePath(siteDocument()?.facts.id ?? '', `/calibrations${part}`)
  const change = (some: Partial<CalibrationFields>) => setFields({ ...fields(), ...some })
  const changeStep = (index: number, step: StepFields) =>
    change({ steps: fields().steps.map((one, at) => (at === index ? step : one)) })

  const fail = (cause: unknown) => {
    const issues = cause instanceof ServerRefused ? (cause.problem.issues ?? []) : []
    setFaults(
      issues.length > 0
        ? issues.map(({ column, message }) => ({ place: placeOfIssue(column), message }))
        : [{ place: null, message: sentenceOf(cause) }],
    )
    const first = faults().find(({ place }) => place !== null)?.place
    if (first) document.getElementById(`${form}-${first}`)?.focus()
  }
  const askEffect = latestOnly((content: unknown, signal: AbortSignal) =>
    sendServer<CalibrationPreview>(path('/preview'), content, signal),
  )
  const look = async (event: SubmitEvent) => {
    event.preventDefault()
    setFaults([])
    rememberName(fields().author)
    const asked = draftText()
    setWorking('Working out every reading of it with the draft …')
    try {
      const preview = await askEffect(draft())
      if (preview) setLooked({ draft: asked, preview })
    } catch (cause) {
      fail(cause)
    } finally {
      setWorking(null)
    }
  }
  const save = async () => {
    setFaults([])
    setWorking('Saving the version …')
    try {
      await sendServer(path(), draft())
      announce(`Version ${(last()?.row.version ?? 0) + 1} of ${props.list.sensor} is saved`)
      void watchPublishing(siteDocument()?.facts.id ?? '')
      props.saved()
    } catch (cause) {
      fail(cause)
    } finally {
      setWorking(null)
    }
  }

  onMount(() => {
    if (props.proposal) document.getElementById(idOf('validFrom'))?.focus()
  })
  const idOf = (place: string) => `${form}-${place}`
  const messagesAt = (place: string) =>
    faults()
      .filter((fault) => fault.place === place)
      .map(({ message }) => message)
      .join(' ')
  const troubled = (place: string) =>
    messagesAt(place) === ''
      ? {}
      : ({ 'aria-invalid': 'true', 'aria-describedby': `${idOf(place)}-fault` } as const)
  const faultText = (place: string): JSX.Element => (
    <Show when={messagesAt(place) !== ''}>
      <p class="field-fault" id={`${idOf(place)}-fault`}>
        {messagesAt(place)}
      </p>
    </Show>
  )
  type TextField = Exclude<keyof CalibrationFields, 'steps'>
  const field = (place: TextField, label: string, type: string, hint?: string, needed = true) => (
    <div class="layout-field">
      <label for={idOf(place)}>{label}</label>
      <input
        id={idOf(place)}
        {...troubled(place)}
        type={type}
        required={needed}
        value={fields()[place]}
        onInput={(event) => change({ [place]: event.currentTarget.value })}
      />
      <Show when={hint}>
        <small>{hint}</small>
      </Show>
      {faultText(place)}
    </div>
  )

  return (
    <form class="calibration-form" onSubmit={(event) => void look(event)} aria-label="Draft of a calibration">
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
        {faultText('steps')}
        <ol class="chain-steps">
          <For each={fields().steps.map((_, index) => index)}>
            {(index) => (
              <CalibrationStep
                place={idOf(`steps.${index}`)}
                number={index + 1}
                step={() => fields().steps[index] as StepFields}
                fault={() => messagesAt(`steps.${index}`)}
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
        {field('author', 'Your name', 'text')}
        {field('reason', 'Why this version is needed', 'text', 'it is kept with the version for good')}
      </fieldset>
      <Show when={faults().some(({ place }) => place === null)}>
        <div class="trouble" role="alert">
          <For each={faults().filter(({ place }) => place === null)}>{({ message }) => <p>{message}</p>}</For>
        </div>
      </Show>
      <Show when={faults().some(({ place }) => place !== null)}>
        <p class="trouble" role="alert">
          Nothing was saved: {faults().length === 1 ? 'one thing is' : `${faults().length} things are`} wrong,
          told beside the fields.
        </p>
      </Show>
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
                  onClick={() => void save()}
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
