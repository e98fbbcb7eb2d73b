import { createUniqueId, For, Match, Show, Switch } from 'solid-js'
import type { Issue } from '#domain/outcome.ts'
import { type SandboxChange, sandboxKindNames } from '#domain/what-if/sandbox-change.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import { sync } from '../../ui/sync.ts'
import { type ChangeField, type FieldChoices, fieldsOfChange } from './change-fields.ts'

/** One change that is tried, with what is wrong with it beside the field that it is about. */
export function ChangeCard(props: {
  number: number
  change: SandboxChange
  choices: FieldChoices
  faults: readonly Issue[]
  cautions: readonly Issue[]
  zone: string
  write: (change: SandboxChange) => void
  remove: () => void
}) {
  const id = createUniqueId()
  const fields = () => fieldsOfChange(props.change, props.choices)
  const names = () =>
    fields()
      .map(({ field }) => field)
      .join(' ')
  const saidAt = (field: string) => ({
    fault: props.faults.find(({ column }) => column === `${props.number}.${field}`)?.message ?? null,
    caution: props.cautions.find(({ column }) => column === `${props.number}.${field}`)?.message ?? null,
  })
  const kept = (fieldNames: string) => fieldNames.split(' ')
  return (
    <fieldset class="what-if-change">
      <legend>
        {props.number + 1}. {sandboxKindNames[props.change.kind]}
      </legend>
      <For each={kept(names())}>
        {(name) => (
          <Show when={fields().find(({ field }) => field === name)}>
            {(field) => (
              <Field
                id={`${id}-${name}`}
                field={field()}
                zone={props.zone}
                said={saidAt(name)}
                write={(change) => props.write(change)}
              />
            )}
          </Show>
        )}
      </For>
      <div class="buttons">
        <button type="button" onClick={() => props.remove()}>
          Take out change {props.number + 1}
        </button>
      </div>
    </fieldset>
  )
}

type Of<As extends ChangeField['as']> = Extract<ChangeField, { as: As }>

function Field(props: {
  id: string
  field: ChangeField
  zone: string
  said: { readonly fault: string | null; readonly caution: string | null }
  write: (change: SandboxChange) => void
}) {
  const troubled = () => (props.said.fault === null ? undefined : 'true')
  const numeric = () => props.field as Of<'number'>
  const instant = () => props.field as Of<'instant'>
  const choice = () => props.field as Of<'choice'>
  /** What is being typed is left alone: a number half written is not written over. */
  const keeps = (text: () => string) => (input: HTMLInputElement) =>
    sync(text, (wanted) => {
      if (input !== document.activeElement) input.value = wanted
    })
  return (
    <div class="what-if-field">
      <label for={props.id}>{props.field.label}</label>
      <Switch>
        <Match when={props.field.as === 'number'}>
          <input
            id={props.id}
            type="text"
            inputmode="decimal"
            maxlength="30"
            autocomplete="off"
            aria-invalid={troubled()}
            aria-describedby={`${props.id}-said`}
            ref={keeps(() => {
              const { value } = numeric()
              return value === null || Number.isNaN(value) ? '' : String(value)
            })}
            onInput={(event) => props.write(numeric().write(numberOf(event.currentTarget.value)))}
          />
        </Match>
        <Match when={props.field.as === 'instant'}>
          <input
            id={props.id}
            type="datetime-local"
            aria-invalid={troubled()}
            aria-describedby={`${props.id}-said`}
            ref={keeps(() => {
              const { value } = instant()
              return value === null || Number.isNaN(value) ? '' : toLocalField(value, props.zone)
            })}
            onInput={(event) =>
              props.write(instant().write(fromLocalField(event.currentTarget.value, props.zone)))
            }
          />
        </Match>
        <Match when={props.field.as === 'choice'}>
          <select
            id={props.id}
            aria-invalid={troubled()}
            aria-describedby={`${props.id}-said`}
            onChange={(event) => props.write(choice().write(event.currentTarget.value))}
          >
            <For each={choice().options}>
              {([value, label]) => (
                <option value={value} selected={value === choice().value}>
                  {label}
                </option>
              )}
            </For>
          </select>
        </Match>
      </Switch>
      <small id={`${props.id}-said`} classList={{ trouble: props.said.fault !== null }}>
        {props.said.fault ?? props.said.caution ?? ''}
      </small>
    </div>
  )
}

/** Null where nothing stands; NaN where it is no number. A true minus sign and a decimal comma are read too. */
function numberOf(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.')
  return plain === '' ? null : Number(plain)
}
