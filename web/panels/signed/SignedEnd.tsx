import type { JSX } from 'solid-js'
import type { Action } from '#domain/access/permissions.ts'
import { WhenAllowed } from '../access/WhenAllowed.tsx'
import { AuthorField } from './AuthorField.tsx'
import type { SignedForm } from './create-signed-form.ts'

/** The end of a form that is signed: the name, what is wrong, and saving it or leaving it. */
export function SignedEnd<F extends string>(props: {
  readonly form: SignedForm<F>
  /** What one must be allowed to do. */
  readonly to: Action
  readonly leave: () => void
  /** What saving does, on its button. */
  readonly children: JSX.Element
}) {
  return (
    <>
      <AuthorField form={props.form} />
      {props.form.faults.summary()}
      <div class="buttons">
        <WhenAllowed to={props.to}>
          <button type="submit" class="primary" disabled={props.form.sending()}>
            {props.children}
          </button>
        </WhenAllowed>
        <button type="button" onClick={() => props.leave()}>
          Leave it
        </button>
      </div>
    </>
  )
}
