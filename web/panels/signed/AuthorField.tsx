import type { JSX } from 'solid-js'
import { signedInName } from '../../state/own-account.ts'
import type { SignedForm } from './create-signed-form.ts'
import { FormField } from './FormField.tsx'

/** The name that a record is signed with: typed, or of the account where somebody is signed in, and then not to be changed. */
export function AuthorField<F extends string>(props: {
  readonly form: SignedForm<F>
  readonly hint?: JSX.Element
}) {
  return (
    <FormField
      form={props.form}
      field="author"
      label="Your name"
      hint={props.hint ?? (signedInName() === null ? undefined : 'the name of your account')}
    >
      <input
        id={props.form.idOf('author')}
        {...props.form.faults.troubled('author')}
        type="text"
        required
        maxlength="200"
        autocomplete="name"
        readonly={signedInName() !== null}
        value={props.form.author()}
        onInput={(event) => props.form.writeName(event.currentTarget.value)}
      />
    </FormField>
  )
}
