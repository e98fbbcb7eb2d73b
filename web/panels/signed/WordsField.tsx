import { type FieldPlace, FormField } from './FormField.tsx'

/** Sentences to write: a reason, what was looked at, what was found. */
export function WordsField<F extends string>(
  props: FieldPlace<F> & {
    readonly value: string
    readonly write: (text: string) => void
    /** 1000 where it is not said. */
    readonly mostCharacters?: number
    readonly mayBeEmpty?: boolean
    /** It has the focus once it is there. */
    readonly first?: boolean
  },
) {
  return (
    <FormField {...props}>
      <textarea
        id={props.form.idOf(props.field)}
        {...props.form.faults.troubled(props.field)}
        required={!props.mayBeEmpty}
        maxlength={props.mostCharacters ?? 1000}
        value={props.value}
        onInput={(event) => props.write(event.currentTarget.value)}
        ref={(area) => {
          if (props.first) queueMicrotask(() => area.focus())
        }}
      />
    </FormField>
  )
}
