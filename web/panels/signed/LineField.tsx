import type { JSX } from 'solid-js'
import { type FieldPlace, FormField } from './FormField.tsx'

/** A line to write, or an instant to choose. */
export function LineField<F extends string>(
  props: FieldPlace<F> & {
    readonly type?: 'text' | 'date' | 'datetime-local'
    readonly value: string
    readonly write: (text: string) => void
    readonly mostCharacters?: number
    readonly mayBeEmpty?: boolean
    /** It has the focus once it is there. */
    readonly first?: boolean
    /** Id of a list of proposals among the children. */
    readonly list?: string
    readonly children?: JSX.Element
  },
) {
  return (
    <FormField {...props}>
      <input
        id={props.form.idOf(props.field)}
        {...props.form.faults.troubled(props.field)}
        type={props.type ?? 'text'}
        required={!props.mayBeEmpty}
        maxlength={props.mostCharacters}
        list={props.list}
        value={props.value}
        onInput={(event) => props.write(event.currentTarget.value)}
        ref={(input) => {
          if (props.first) queueMicrotask(() => input.focus())
        }}
      />
      {props.children}
    </FormField>
  )
}
