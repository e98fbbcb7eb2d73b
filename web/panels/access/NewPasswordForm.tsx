import { Show } from 'solid-js'
import type { PasswordLinkOwner } from '#contract/access-keys.ts'
import { sendServer } from '../../state/ask-server.ts'
import { passwordLink } from '../../state/own-account.ts'
import { chosenPassword } from './chosen-password.ts'
import { createLinkForm } from './create-link-form.ts'
import { NewPasswordFields } from './NewPasswordFields.tsx'
import { Troubles } from './Troubles.tsx'

/** Another password by a link that an administrator made. */
export function NewPasswordForm() {
  // The page then asks for the password again, and for a code where the account has a second factor.
  const { offered, troubles, asking, send } = createLinkForm(
    () => sendServer<PasswordLinkOwner>('/api/password-links/look', { token: passwordLink() }),
    async (said) =>
      sendServer('/api/password-links/use', { token: passwordLink(), password: chosenPassword(said) }),
  )
  return (
    <form class="access-form" onSubmit={send}>
      <h2 id="access-title">Another password</h2>
      <Show when={offered()}>
        {(known) => (
          <>
            <p>For {known().name}. Every device on which you are signed in will have to sign in again.</p>
            <input
              name="username"
              autocomplete="username"
              value={known().signInName}
              readOnly
              aria-label="Name to sign in with"
            />
            <NewPasswordFields />
            <button type="submit" class="primary" disabled={asking()}>
              Set this password
            </button>
          </>
        )}
      </Show>
      <Troubles sentences={troubles()} />
    </form>
  )
}
