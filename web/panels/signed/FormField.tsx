import { type JSX, Show } from 'solid-js'
import type { SignedForm } from './create-signed-form.ts'

/** Where a field stands in which form, and what is said beside it. */
export interface FieldPlace<F extends string> {
  readonly form: SignedForm<F>
  readonly field: F | 'author'
  readonly label: JSX.Element
  readonly hint?: JSX.Element
  /** Across the whole form. */
  readonly wide?: boolean
}

/** A field with its label before it, and behind it what is to be known of it and what is wrong with it. */
export function FormField<F extends string>(props: FieldPlace<F> & { children: JSX.Element }) {
  return (
    <div class="layout-field" classList={{ wide: props.wide }}>
      <label for={props.form.idOf(props.field)}>{props.label}</label>
      {props.children}
      <Show when={props.hint}>
        <small>{props.hint}</small>
      </Show>
      {props.form.faults.textAt(props.field)}
    </div>
  )
}
