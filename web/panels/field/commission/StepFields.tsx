import { createMemo, createSignal, For, Show } from 'solid-js'
import type { StepStanding } from '#domain/field/commissioning-standing.ts'
import type { EvidenceField } from '#domain/field/commissioning-steps.ts'
import type { CommissioningStepBody, Evidence } from '#domain/field/field-bodies.ts'
import { judgeStep } from '#domain/field/judge-step.ts'
import type { StepSurroundings } from '#domain/field/step-surroundings.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { formatInstant } from '../../../ui/format-instant.ts'
import { FilesField } from '../FilesField.tsx'
import { TypedNumber } from '../TypedNumber.tsx'
import { TypedChoice, TypedText } from '../TypedText.tsx'

/** One step of commissioning: what to do, what was found, and whether that bears it out. */
export function StepFields(props: {
  standing: StepStanding
  around: StepSurroundings
  save: (
    found: Pick<CommissioningStepBody, 'step' | 'outcome' | 'reason' | 'evidence'>,
    files: readonly File[],
  ) => Promise<boolean>
}) {
  const step = () => props.standing.step
  const last = () => props.standing.entries.at(-1)
  const [evidence, setEvidence] = createSignal<Evidence>(last()?.body.evidence ?? {})
  const [reason, setReason] = createSignal('')
  const [files, setFiles] = createSignal<readonly File[]>([])
  const [saving, setSaving] = createSignal(false)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const judged = createMemo(() => judgeStep(step(), evidence(), props.around))
  const begun = () => Object.values(evidence()).some((one) => one !== null && one !== '' && one !== false)
  const set = (name: string, value: Evidence[string]) => setEvidence({ ...evidence(), [name]: value })
  const keep = async (outcome: CommissioningStepBody['outcome'], why: string) => {
    setSaving(true)
    const kept = await props
      .save({ step: step().id, outcome, reason: why, evidence: evidence() }, files())
      .finally(() => setSaving(false))
    if (!kept) return
    setReason('')
    setFiles([])
  }
  return (
    <details class="field-step" data-standing={props.standing.standing}>
      <summary>
        <span class="field-step-standing">{standingWords[props.standing.standing]}</span> {step().title}
      </summary>
      <p>{step().instruction}</p>
      <div class="field-choices">
        <For each={step().fields}>
          {(field) => <EvidenceInput field={field} value={evidence()[field.name] ?? null} set={set} />}
        </For>
      </div>
      <Show when={begun() || step().fields.every(({ optional }) => optional)}>
        <div role="status">
          <Show when={judged().passed}>
            <p>What was found bears this step out.</p>
          </Show>
          <For each={judged().sentences}>
            {(sentence) => <p class={judged().passed ? '' : 'trouble'}>{sentence}</p>}
          </For>
        </div>
      </Show>
      <FilesField files={files()} onChange={setFiles} />
      <div class="field-row">
        <button type="button" disabled={!judged().passed || saving()} onClick={() => void keep('done', '')}>
          Done
        </button>
        <button
          type="button"
          disabled={judged().passed || !begun() || saving()}
          onClick={() => void keep('not-passed', judged().sentences.join(' '))}
        >
          Record that it did not pass
        </button>
      </div>
      <TypedText label="Skipped because" value={reason()} onChange={setReason} />
      <button
        type="button"
        disabled={reason().trim().length < 5 || saving()}
        onClick={() => void keep('skipped', reason().trim())}
      >
        Skip this step for that reason
      </button>
      <For each={props.standing.entries}>
        {(entry) => (
          <p>
            {standingWords[entry.body.outcome]} by {entry.author},{' '}
            {formatInstant(entry.writtenAtEpochMs, zone())}. {entry.body.reason}
          </p>
        )}
      </For>
    </details>
  )
}

const standingWords = {
  missing: 'Open',
  done: 'Done',
  skipped: 'Skipped',
  'not-passed': 'Did not pass',
  disputed: 'Recorded twice',
} as const

function EvidenceInput(props: {
  field: EvidenceField
  value: Evidence[string]
  set: (name: string, value: Evidence[string]) => void
}) {
  const { name, kind, label, unit, options } = props.field
  if (kind === 'number')
    return (
      <TypedNumber
        label={label}
        {...(unit ? { unit } : {})}
        value={typeof props.value === 'number' ? props.value : null}
        onChange={(value) => props.set(name, value)}
      />
    )
  if (kind === 'flag')
    return (
      <label class="field-check">
        <input
          type="checkbox"
          checked={props.value === true}
          onChange={(event) => props.set(name, event.currentTarget.checked)}
        />
        {label}
      </label>
    )
  if (kind === 'choice')
    return (
      <TypedChoice
        label={label}
        value={String(props.value ?? '')}
        options={[{ word: '', name: '…' }, ...(options ?? []).map((word) => ({ word, name: word }))]}
        onChange={(word) => props.set(name, word)}
      />
    )
  return (
    <TypedText label={label} value={String(props.value ?? '')} onChange={(text) => props.set(name, text)} />
  )
}
