import { createSignal, createUniqueId, Show } from 'solid-js'
import { sync } from '../../ui/sync.ts'
import { typedNumber } from './typed-number.ts'

/** A number typed with a thumb; what cannot be read as one stays as typed, is told, and counts as missing. */
export function TypedNumber(props: {
  label: string
  unit?: string
  value: number | null
  onChange: (value: number | null) => void
}) {
  const id = createUniqueId()
  const [text, setText] = createSignal(props.value === null ? '' : String(props.value))
  const unreadable = () => text().trim() !== '' && typedNumber(text()) === null
  sync(
    () => props.value,
    (value) => {
      // A value that came from elsewhere; what is being typed is left as it is.
      if (value !== typedNumber(text()) && !(value === null && unreadable()))
        setText(value === null ? '' : String(value))
    },
  )
  return (
    <div class="field-cell">
      <label for={id}>{props.unit ? `${props.label}, ${props.unit}` : props.label}</label>
      <input
        id={id}
        inputmode="decimal"
        autocomplete="off"
        value={text()}
        aria-invalid={unreadable() ? 'true' : undefined}
        onInput={(event) => {
          setText(event.currentTarget.value)
          props.onChange(typedNumber(event.currentTarget.value))
        }}
      />
      <Show when={unreadable()}>
        <small class="trouble">“{text()}” is no number.</small>
      </Show>
    </div>
  )
}
