import { For, Show } from 'solid-js'
import { stepParameters } from '#domain/reduction/step-parameters.ts'
import { type StepKind, stepKinds } from '#domain/site/vocabulary.ts'
import { parameterNames, type StepFields } from './calibration-fields.ts'

/** One step of a chain: its kind, its formula, a field a parameter. */
export function CalibrationStep(props: {
  place: string
  number: number
  step: () => StepFields
  fault: () => string
  change: (step: StepFields) => void
  remove: () => void
  up: () => void
}) {
  return (
    <li id={props.place} tabindex="-1">
      <div class="chain-step-head">
        <label>
          Step {props.number}{' '}
          <select
            value={props.step().kind}
            onChange={(event) =>
              props.change({ kind: event.currentTarget.value as StepKind, values: props.step().values })
            }
          >
            <For each={stepKinds}>{(kind) => <option value={kind}>{kind}</option>}</For>
          </select>
        </label>
        <code>{stepParameters[props.step().kind].formula}</code>
        <Show when={props.number > 1}>
          <button type="button" aria-label={`Move step ${props.number} up`} onClick={() => props.up()}>
            Up
          </button>
        </Show>
        <button type="button" aria-label={`Take step ${props.number} out`} onClick={() => props.remove()}>
          Take out
        </button>
      </div>
      <div class="chain-step-values">
        <For each={parameterNames(props.step().kind)}>
          {({ name, optional }) => (
            <label class="layout-field">
              {optional ? `${name}, if any` : name}
              <input
                required={!optional}
                value={props.step().values[name] ?? ''}
                aria-invalid={props.fault() === '' ? undefined : 'true'}
                onInput={(event) =>
                  props.change({
                    kind: props.step().kind,
                    values: { ...props.step().values, [name]: event.currentTarget.value },
                  })
                }
              />
            </label>
          )}
        </For>
      </div>
      <Show when={props.fault() !== ''}>
        <p class="field-fault">{props.fault()}</p>
      </Show>
    </li>
  )
}
